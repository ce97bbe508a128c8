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
    private const double LargestWeight = 50;

    private readonly Option<int> visits;
    private readonly Option<double?> unmetWeight = new("--unmet-weight")
        { Description =
            "Millimeters of water that 1 mm of plant use is worth. Default: the survey's, usually 4. Higher means greener and more water.",
                HelpName = "number" };
    private readonly Option<double?> mostUnmet = new("--most-unmet")
        { Description = "Instead of a weight: the largest percent of plant use that may go unmet, mean of the site.",
            HelpName = "percent" };
    private readonly Option<string?> mostWater = new("--most-water")
        { Description = "Instead of a weight: the most water per year, for example 300m3 or 80000gal.", HelpName = "volume" };
    private readonly Option<string?> onlyOn = new("--only-on")
        { Description = "Weekdays on which visits are possible.", HelpName = "mon,tue,..." };
    private readonly Option<string?> notIn = new("--not-in")
        { Description = "Times of the year without visits, as month-day..month-day.", HelpName = "8-1..8-31,..." };
    private readonly Option<bool> firstWeek = new("--first-week") { Description = "Visits only in the first week of a month." };
    private readonly Option<string?> agreed = new("--agreed") { Description = "Fixed dates; they count as visits.", HelpName = "5-12,..." };
    private readonly Option<string?> winterOff = new("--winter-off")
        { Description = "Winter shutdown and spring start-up on fixed dates; both count as visits.", HelpName = "11-15..3-1" };
    private readonly Option<int?> year = new("--year")
        { Description = "The year whose calendar gives the weekdays. Default: the plan's.", HelpName = "yyyy" };

    /// <param name="fewest">The fewest visits that may be asked for; 0 where one may do without.</param>
    public SeasonArguments(int fewest)
    {
        visits = new Option<int>("--visits")
        {
            Description = fewest == 0 ? "Visits per year, 1 to 12; 0 for one percent all season." : "Visits per year, 1 to 12.",
            HelpName = "number",
            DefaultValueFactory = _ => UsualVisits,
        };
        visits.Validators.Add(v => Within(v, visits, fewest, 12, "visits per year"));
        year.Validators.Add(y => Within(y, year, 1901, 2199, "years"));
        mostUnmet.Validators.Add(r => Between(r, mostUnmet, 0, 100, "percent of the use"));
        unmetWeight.Validators.Add(r => Between(r, unmetWeight, 0, LargestWeight, "mm of water per mm of use"));
    }

    /// <summary>Puts the options on a command: the number of visits and the winter; or all.</summary>
    public void AddTo(Job job, bool all)
    {
        job.Options.Add(visits);
        job.Options.Add(winterOff);
        foreach (Option option in all ? new Option[] { unmetWeight, mostUnmet, mostWater, onlyOn, notIn, firstWeek, agreed, year } : [])
        {
            job.Options.Add(option);
        }
    }

    /// <summary>How many visits were asked for.</summary>
    public int Visits(ParseResult parse) => parse.GetValue(visits);

    /// <summary>Whether visits or a winter were asked for.</summary>
    public bool AreIn(ParseResult parse) => parse.GetResult(visits) is { Implicit: false }
        || parse.GetResult(winterOff) is { Implicit: false };

    /// <summary>What was asked for with the few options that <c>plan</c> has.</summary>
    /// <exception cref="ProblemsException">An option can't be understood.</exception>
    public SeasonOptions ReadFew(ParseResult parse, int planYear)
    {
        List<Problem> problems = [];
        Shutdown? shutdown = ReadShutdown(parse, problems);
        return problems.Count > 0
            ? throw new ProblemsException(problems)
            : new SeasonWishes(Shutdown: shutdown).ToOptions(Math.Max(1, parse.GetValue(visits)), planYear);
    }

    /// <summary>What was asked for.</summary>
    /// <exception cref="ProblemsException">An option can't be understood, or two contradict each other.</exception>
    public SeasonOptions Read(ParseResult parse, Site site, int planYear)
    {
        List<Problem> problems = [];
        ListOf<T> Many<T>(Option<string?> option, Func<string, T?> read, Sentence expected, Func<string, string?> nearest) where T : struct
        {
            string[] words = parse.GetValue(option)?.Split(',', StringSplitOptions.TrimEntries) ?? [];
            problems.AddRange(words.Where(w => read(w) is null)
                .Select(w => new Problem(option.Name, 0, 0, w, expected, nearest(w), "not understood")));
            return words.Select(read).OfType<T>().ToListOf();
        }

        ListOf<IsoDayOfWeek> days = Many(onlyOn, DayText.Weekday, "days of the week as mon,thu", DayText.NearestWeekday);
        ListOf<AnnualDate> dates = Many(agreed, DayText.Annual, "dates as month-day: 5-12", _ => null);
        string[] spans = parse.GetValue(notIn)?.Split(',', StringSplitOptions.TrimEntries) ?? [];
        problems.AddRange(spans.Where(s => DayText.Period(s) is null)
            .Select(s => new Problem(notIn.Name, 0, 0, s, "spans as month-day..month-day: 8-1..8-31", null, "not understood")));
        SeasonWishes wishes = new(
            OnlyOn: days,
            NotIn: spans.Select(DayText.Period).OfType<PeriodOfYear>().ToListOf(),
            OnlyFirstWeekOfMonth: parse.GetValue(firstWeek),
            Agreed: dates.Distinct().ToListOf(),
            UnmetWeight: parse.GetValue(unmetWeight),
            MostUnmet: parse.GetValue(mostUnmet) / 100,
            MostWaterM3: Volume(mostWater, parse, site, problems) / 1000,
            Shutdown: ReadShutdown(parse, problems));
        if (wishes.Contradiction is { } both)
        {
            problems.Add(new Problem(NameOf(both.Second), 0, 0, $"{NameOf(both.First)} as well", "one of the two", null,
                "the weight follows from the limit that is set"));
        }

        return problems.Count > 0 ? throw new ProblemsException(problems)
            : wishes.ToOptions(Math.Max(1, parse.GetValue(visits)), parse.GetValue(year) ?? planYear);
    }

    /// <summary>The option that a limit was given with.</summary>
    private string NameOf(string limit) => limit switch
    {
        nameof(SeasonWishes.MostUnmet) => mostUnmet.Name,
        nameof(SeasonWishes.MostWaterM3) => mostWater.Name,
        _ => unmetWeight.Name,
    };

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

        problems.Add(new Problem(
            winterOff.Name, 0, 0, text, "two dates as month-day..month-day: 11-15..3-1", null, "not understood"));
        return null;
    }

    private static double? Volume(Option<string?> option, ParseResult parse, Site site, List<Problem> problems)
    {
        const double LargestLitres = 1e9;
        if (parse.GetValue(option) is not { } text)
        {
            return null;
        }

        QuantityReading reading = QuantityText
            .Read(text, Dimension.Volume, Units.Named(site.Units == UnitSystem.UsCustomary ? "gal" : "L")!);
        if (reading.Problem is not null || !(reading.Value is >= 0 and <= LargestLitres))
        {
            problems.Add(new Problem(option.Name, 0, 0, text, "a volume of water up to 1000000 m3, as 500L or 130gal", null,
                reading.Problem ?? "not such a volume"));
        }

        return reading.Value;
    }

    private static void Between(OptionResult result, Option<double?> option, double least, double most, Sentence what)
    {
        if (result.GetValue(option) is { } value && !(value > least && value < most))
        {
            Usage.Add(result, $"'{option.Name} {value}': expected {what} above {least} and below {most}.");
        }
    }

    private static void Within<T>(OptionResult result, Option<T> option, int least, int most, Sentence what)
    {
        // What is no whole number is told by the parser itself, and must not be asked for here.
        if (result.Tokens.Count == 1 && int.TryParse(result.Tokens[0].Value, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture,
            out int value) && (value < least || value > most))
        {
            Usage.Add(result, $"'{option.Name} {value}': expected {least} to {most} {what}.");
        }
    }
}
