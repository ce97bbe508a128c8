using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;
using Valvewright.Records.Jobs;

namespace Valvewright.Cli.Commands;

/// <summary>The options that say how a season is to be planned.</summary>
internal sealed class SeasonArguments
{
    private const int UsualVisits = 4;
    private const double MostStress = 365;

    private readonly Option<int> visits;
    private readonly Option<string?> stressWeight = new("--stress-weight") { Description = $"What a day with a whole zone at wilting weighs against water: a depth, as 40mm or 1.5in ({SeasonOptions.UsualStressWeightMm} mm when not given). The larger, the more stress comes first.", HelpName = "depth" };
    private readonly Option<double?> mostStress = new("--most-stress") { Description = "Instead of a weight: the stress days a year that are borne, mean of the site, in years that the season is not chosen with.", HelpName = "days" };
    private readonly Option<string?> mostWater = new("--most-water") { Description = "Instead of a weight: the water that there is a year, as 300m3 or 80000gal; the least stress within it is found.", HelpName = "volume" };
    private readonly Option<string> aim = new("--aim") { Description = "Which years it is chosen for: the mean of all, what 8 in 10 do not exceed, or the worst.", HelpName = "mean|8-in-10|worst", DefaultValueFactory = _ => "mean" };
    private readonly Option<string?> onlyOn = new("--only-on") { Description = "Days of the week on which visits can be made.", HelpName = "mon,tue,..." };
    private readonly Option<string?> notIn = new("--not-in") { Description = "Times of the year without visits, as month-day..month-day.", HelpName = "8-1..8-31,..." };
    private readonly Option<bool> firstWeek = new("--first-week") { Description = "Visits only in the first week of a month." };
    private readonly Option<string?> agreed = new("--agreed") { Description = "Visits that are agreed already; they count.", HelpName = "5-12,..." };
    private readonly Option<string?> winterOff = new("--winter-off") { Description = "Winter shutdown on fixed dates: off from the first to the second, which is the spring start. Both are visits and count.", HelpName = "11-15..3-1" };
    private readonly Option<bool> percentsAlone = new("--percents-alone") { Description = "Visits set the percent, up to 100, and nothing else; without it they may also change programs, where that pays, and go above 100, where every rule still holds." };
    private readonly Option<string?> settingWorth = new("--setting-worth") { Description = $"What each setting that a visit keys in beside the percent must save a year, as 500L or 130gal ({SeasonOptions.UsualSettingWorthLitres} L when not given).", HelpName = "volume" };
    private readonly Option<bool> nearBound = new("--near-bound") { Description = "Work out a nearer bound on what no season costs less than; a few seconds a zone." };
    private readonly Option<int?> year = new("--year") { Description = "The year whose calendar says which day is a Monday; the plan's own when not given.", HelpName = "yyyy" };

    /// <param name="fewest">The fewest visits that may be asked for; 0 where one may do without.</param>
    public SeasonArguments(int fewest)
    {
        visits = new Option<int>("--visits")
        {
            Description = fewest == 0 ? "Visits a year, 1 to 12; 0 for one percent all season." : "Visits a year, 1 to 12.",
            HelpName = "number",
            DefaultValueFactory = _ => UsualVisits,
        };
        visits.Validators.Add(v => Within(v, visits, fewest, 12, "visits a year"));
        aim.AcceptOnlyFromAmong("mean", "8-in-10", "worst");
        year.Validators.Add(y => Within(y, year, 1901, 2199, "years"));
        mostStress.Validators.Add(s =>
        {
            if (s.GetValue(mostStress) is { } days && !(days is > 0 and <= MostStress))
            {
                s.AddError($"'--most-stress {days}': expected days a year above 0, up to {MostStress}.");
            }
        });
    }

    /// <summary>Puts the options on a command: the number of visits, the winter and what visits may change; or all.</summary>
    public void AddTo(Job job, bool all)
    {
        job.Options.Add(visits);
        job.Options.Add(winterOff);
        job.Options.Add(percentsAlone);
        foreach (Option option in all ? new Option[] { settingWorth, stressWeight, mostStress, mostWater, aim, onlyOn, notIn, firstWeek, agreed, year, nearBound } : [])
        {
            job.Options.Add(option);
        }
    }

    /// <summary>How many visits were asked for.</summary>
    public int Visits(ParseResult parse) => parse.GetValue(visits);

    /// <summary>What was asked for with the few options that <c>plan</c> has.</summary>
    /// <exception cref="ProblemsException">An option can't be understood.</exception>
    public SeasonOptions ReadFew(ParseResult parse, int planYear)
    {
        List<Problem> problems = [];
        Shutdown? shutdown = ReadShutdown(parse, problems);
        return problems.Count > 0
            ? throw new ProblemsException(problems)
            : new SeasonWishes(Shutdown: shutdown, PercentsAlone: parse.GetValue(percentsAlone)).ToOptions(Math.Max(1, parse.GetValue(visits)), planYear);
    }

    /// <summary>What was asked for.</summary>
    /// <exception cref="ProblemsException">An option can't be understood, or two contradict each other.</exception>
    public SeasonOptions Read(ParseResult parse, Site site, int planYear)
    {
        List<Problem> problems = [];
        ListOf<T> Many<T>(Option<string?> option, Func<string, T?> read, string expected, Func<string, string?> nearest) where T : struct
        {
            string[] words = parse.GetValue(option)?.Split(',', StringSplitOptions.TrimEntries) ?? [];
            problems.AddRange(words.Where(w => read(w) is null).Select(w => new Problem(option.Name, 0, 0, w, expected, nearest(w), "this can't be understood")));
            return words.Select(read).OfType<T>().ToListOf();
        }

        ListOf<IsoDayOfWeek> days = Many(onlyOn, DayText.Weekday, "days of the week as mon,thu", DayText.NearestWeekday);
        ListOf<AnnualDate> dates = Many(agreed, DayText.Annual, "dates as month-day: 5-12", _ => null);
        string[] spans = parse.GetValue(notIn)?.Split(',', StringSplitOptions.TrimEntries) ?? [];
        problems.AddRange(spans.Where(s => DayText.Period(s) is null).Select(s => new Problem(notIn.Name, 0, 0, s, "spans as month-day..month-day: 8-1..8-31", null, "this can't be understood")));
        SeasonWishes wishes = new(
            OnlyOn: days,
            NotIn: spans.Select(DayText.Period).OfType<PeriodOfYear>().ToListOf(),
            OnlyFirstWeekOfMonth: parse.GetValue(firstWeek),
            Agreed: dates.Distinct().ToListOf(),
            StressWeightMm: Weight(parse.GetValue(stressWeight), site, problems),
            MostStressDays: parse.GetValue(mostStress),
            Aim: parse.GetValue(aim) switch { "8-in-10" => SeasonAim.EightYearsInTen, "worst" => SeasonAim.WorstYear, _ => SeasonAim.MeanYear },
            Shutdown: ReadShutdown(parse, problems),
            PercentsAlone: parse.GetValue(percentsAlone),
            SettingWorthLitres: Volume(settingWorth, parse, site, problems),
            MostWaterM3: Volume(mostWater, parse, site, problems) / 1000,
            NearBound: parse.GetValue(nearBound));
        if (wishes.Contradiction is { } both)
        {
            problems.Add(new Problem(NameOf(both.Second), 0, 0, $"{NameOf(both.First)} as well", "one of the two", null, "the weight follows from the limit that is set"));
        }

        return problems.Count > 0 ? throw new ProblemsException(problems) : wishes.ToOptions(Math.Max(1, parse.GetValue(visits)), parse.GetValue(year) ?? planYear);
    }

    /// <summary>The option that a limit was given with.</summary>
    private string NameOf(string limit) => limit switch
    {
        nameof(SeasonWishes.MostStressDays) => mostStress.Name,
        nameof(SeasonWishes.MostWaterM3) => mostWater.Name,
        _ => stressWeight.Name,
    };

    private double? Weight(string? text, Site site, List<Problem> problems)
    {
        const double LargestMm = 5000;
        if (text is null)
        {
            return null;
        }

        QuantityReading reading = QuantityText.Read(text, Dimension.Length, site.Units == UnitSystem.UsCustomary ? Units.Inch : Units.Millimetre);
        double mm = 1000 * reading.Value;
        if (reading.Problem is not null || !(mm is > 0 and <= LargestMm))
        {
            problems.Add(new Problem(stressWeight.Name, 0, 0, text, "a depth above 0 and up to 5 m, as 40mm or 1.5in", null, reading.Problem ?? "this weighs nothing, or too much"));
        }

        return mm;
    }

    private Shutdown? ReadShutdown(ParseResult parse, List<Problem> problems)
    {
        if (parse.GetValue(winterOff) is not { } text)
        {
            return null;
        }

        if (DayText.Period(text) is { } winter)
        {
            return new Shutdown(winter.From, winter.To);
        }

        problems.Add(new Problem(winterOff.Name, 0, 0, text, "two dates as month-day..month-day: 11-15..3-1", null, "this can't be understood"));
        return null;
    }

    private static double? Volume(Option<string?> option, ParseResult parse, Site site, List<Problem> problems)
    {
        const double LargestLitres = 1e9;
        if (parse.GetValue(option) is not { } text)
        {
            return null;
        }

        QuantityReading reading = QuantityText.Read(text, Dimension.Volume, Units.Named(site.Units == UnitSystem.UsCustomary ? "gal" : "L")!);
        if (reading.Problem is not null || !(reading.Value is >= 0 and <= LargestLitres))
        {
            problems.Add(new Problem(option.Name, 0, 0, text, "a volume of water up to 1000000 m3, as 500L or 130gal", null, reading.Problem ?? "this is no such volume"));
        }

        return reading.Value;
    }

    private static void Within<T>(OptionResult result, Option<T> option, int least, int most, string what)
    {
        // What is no whole number is told by the parser itself, and must not be asked for here.
        if (result.Tokens.Count == 1 && int.TryParse(result.Tokens[0].Value, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int value) && (value < least || value > most))
        {
            result.AddError($"'{option.Name} {value}': expected {least} to {most} {what}.");
        }
    }
}
