using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using NodaTime;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Cli.Reports;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Engine.Words;
using Valvewright.Files.Plans;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;

namespace Valvewright.Cli.Commands;

/// <summary>The part of the season command that looks at this year's weather: what to set today.</summary>
internal sealed class SeasonAdvice
{
    private readonly Option<LocalDate?> today = SiteArguments.Date("--today", "With --so-far: what to set on this date, given the weather of the year up to the day before.");
    private readonly Option<string?> soFar = new("--so-far") { Description = "A file of this year's weather, from the year's first day to the day before --today.", HelpName = "file" };
    private readonly Option<string[]> percent = new("--percent") { Description = "What a controller is set to now, where that is not what the season says; may be given several times.", HelpName = "controller=80", DefaultValueFactory = _ => [] };

    /// <summary>Puts the options on a command.</summary>
    public void AddTo(Job job)
    {
        job.Options.Add(today);
        job.Options.Add(soFar);
        job.Options.Add(percent);
    }

    /// <summary>Whether advice is asked for.</summary>
    public bool IsAskedFor(ParseResult parse) => parse.GetValue(today) is not null || parse.GetValue(soFar) is not null || parse.GetValue(percent)!.Length > 0;

    /// <summary>Gives the advice.</summary>
    public int Run(ParseResult parse, SiteInputs inputs, SavedPlan saved, double stressWeightMm, Sheet sheet)
    {
        LocalDate date = parse.GetValue(today) ?? throw Wrong(today.Name, "nothing", "a date: --today 2026-06-14", "advice is for a date");
        string file = parse.GetValue(soFar) ?? throw Wrong(soFar.Name, "nothing", "a file of this year's weather", "advice rests on the year's weather so far");
        if (saved.Plan.Controllers.All(c => c.Visits.Count == 0))
        {
            throw Wrong("--plan", "no visits", "a plan that 'valvewright season' has written", "the plan has no season yet");
        }

        Climate weather = ThisYear(inputs.Site, file, date);
        Dictionary<string, int> now = Percents(inputs.Site, parse.GetValue(percent)!);
        sheet.Progress.Step("Looking ahead");
        ListOf<InYearAdvice> advice = InYearAdvice.Of(inputs.Site, saved.Plan, inputs.Training, weather, now, stressWeightMm);
        AdvicePages.Write(sheet, inputs.Site, date, weather, advice);
        sheet.Answer(new AdviceAnswer(inputs.Site.Name, date, weather.EtoMm.Sum(), weather.RainMm.Sum(), advice));
        return ExitCode.Done;
    }

    private static Climate ThisYear(Site site, string file, LocalDate date)
    {
        WeatherSource? source = site.Weather;
        WeatherReading reading = WeatherFiles.Read(file, new WeatherReadOptions
        {
            Place = source?.Station ?? site.Place,
            WindHeightM = source is null || double.IsNaN(source.WindHeightM) ? null : source.WindHeightM,
        });
        if (!reading.Ok)
        {
            throw new ProblemsException(reading.Problems);
        }

        LocalDate first = InYearAdvice.FirstDayOfYear(site, date), last = date.PlusDays(-1);
        if (last < first)
        {
            throw Wrong("--today", $"{date:uuuu-MM-dd}", $"a date after {first:uuuu-MM-dd}", "the year has no weather yet");
        }

        try
        {
            Climate climate = ClimateBuilder.Build(reading.Record, source?.Eto).Climate;
            return climate.First <= first && climate.Last >= last
                ? climate.Between(first, last)
                : throw Wrong(file, $"{climate.First:uuuu-MM-dd} to {climate.Last:uuuu-MM-dd}", $"{first:uuuu-MM-dd} to {last:uuuu-MM-dd}", "days of this year are missing");
        }
        catch (ArgumentException reason)
        {
            throw Wrong(file, reason.Message, "days with highest and lowest temperature, or with a published ETo", "no reference evapotranspiration can be found from this file");
        }
    }

    private static Dictionary<string, int> Percents(Site site, string[] given)
    {
        Dictionary<string, int> now = [];
        List<Problem> problems = [];
        foreach (string text in given)
        {
            int cut = text.LastIndexOf('=');
            string name = cut < 0 ? text : text[..cut];
            SiteController? controller = site.Controllers.FirstOrDefault(c => c.Name == name);
            string number = cut < 0 ? "" : text[(cut + 1)..].TrimEnd('%', ' ');
            int[] settings = controller is null ? [] : [0, .. controller.Profile.Percent.Settings().Append(100).Distinct().Order()];
            if (controller is null)
            {
                problems.Add(new Problem("--percent", 0, 0, name, string.Join(", ", site.Controllers.Select(c => Printable.Of(c.Name))), NearestWord.To(name, site.Controllers.Select(c => c.Name)), "the survey has no such controller"));
            }
            else if (!int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out int percent) || !settings.Contains(percent))
            {
                problems.Add(new Problem("--percent", 0, 0, text, $"{name}= and one of {settings[0]}, {settings[1]} ... {settings[^1]}", null, "the controller can't be set to that"));
            }
            else
            {
                now[name] = percent;
            }
        }

        return problems.Count == 0 ? now : throw new ProblemsException(problems);
    }

    private static ProblemsException Wrong(string where, string found, string expected, string message) => new(new Problem(where, 0, 0, found, expected, null, message));

    /// <summary>What <c>--json</c> prints.</summary>
    /// <param name="Site">The site's name.</param>
    /// <param name="Today">The date.</param>
    /// <param name="EtoMm">Reference evapotranspiration of the year so far.</param>
    /// <param name="RainMm">Rain of the year so far.</param>
    /// <param name="Advice">By controller.</param>
    private sealed record AdviceAnswer(string Site, LocalDate Today, double EtoMm, double RainMm, ListOf<InYearAdvice> Advice);
}
