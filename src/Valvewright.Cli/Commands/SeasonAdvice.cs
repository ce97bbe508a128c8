using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Cli.Reports;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Plans;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;
using Valvewright.Work;

namespace Valvewright.Cli.Commands;

/// <summary>The part of the season command that looks at this year's weather: what to set today.</summary>
internal sealed class SeasonAdvice
{
    private readonly Option<LocalDate?> today = SiteArguments
        .Date("--today", "With --so-far: what to set on this date, from the year's weather up to the day before.");
    private readonly Option<string?> soFar = new("--so-far")
        { Description = "A file of this year's weather, from the year's first day to the day before --today.", HelpName = "file" };
    private readonly Option<string[]> percent = new("--percent")
        { Description = "What a controller is set to now, if not as planned. May be repeated.", HelpName = "controller=80",
            DefaultValueFactory = _ => [] };

    /// <summary>Puts the options on a command.</summary>
    public void AddTo(Job job)
    {
        job.Options.Add(today);
        job.Options.Add(soFar);
        job.Options.Add(percent);
    }

    /// <summary>Whether advice is asked for.</summary>
    public bool IsAskedFor(ParseResult parse) => parse.GetValue(today) is not null || parse.GetValue(soFar) is not null
        || parse.GetValue(percent)!.Length > 0;

    /// <summary>Gives the advice.</summary>
    public int Run(ParseResult parse, SiteYears years, SavedPlan saved, Sheet sheet)
    {
        LocalDate date = parse.GetValue(today) ?? throw Wrong(today.Name, "nothing", "a date: --today 2026-06-14", "advice is for a date");
        string file = parse.GetValue(soFar)
            ?? throw Wrong(soFar.Name, "nothing", "a file of this year's weather", "advice rests on the year's weather so far");
        Climate weather = YearAdvice.SoFar(years.Site, file, Read(years.Site, file), date);
        Dictionary<string, int> now = Percents(parse.GetValue(percent)!);
        sheet.Progress.Step("Looking ahead");
        YearAdvice advice = YearAdvice.Of(new AdviceRequest(years.Site, saved.Plan, years.Training, weather, now));
        AdvicePages.Write(sheet, years.Site, date, weather, advice.Controllers);
        sheet.Answer(new AdviceAnswer(years.Site.Name, date, advice.EtoMm, advice.RainMm, advice.Controllers));
        return ExitCode.Done;
    }

    /// <summary>Reads a file of this year's weather.</summary>
    public static WeatherReading Read(Site site, string file)
    {
        WeatherSource? source = site.Weather;
        return WeatherFiles.Read(file, new WeatherReadOptions
        {
            Place = source?.Station ?? site.Place,
            WindHeightM = source is null || double.IsNaN(source.WindHeightM) ? null : source.WindHeightM,
        });
    }

    private static Dictionary<string, int> Percents(string[] given)
    {
        Dictionary<string, int> now = [];
        List<Problem> problems = [];
        foreach (string text in given)
        {
            int cut = text.LastIndexOf('=');
            if (cut > 0 && int.TryParse(
                text[(cut + 1)..].TrimEnd('%', ' '), NumberStyles.None, CultureInfo.InvariantCulture, out int percent))
            {
                now[text[..cut]] = percent;
            }
            else
            {
                problems.Add(new Problem(
                    "--percent", 0, 0, text, "a controller and a percent, as Gate=80", null, "not understood"));
            }
        }

        return problems.Count == 0 ? now : throw new ProblemsException(problems);
    }

    private static ProblemsException Wrong(string where, string found, string expected, string message) =>
        new(new Problem(where, 0, 0, found, expected, null, message));

    /// <summary>What <c>--json</c> prints.</summary>
    /// <param name="Site">The site's name.</param>
    /// <param name="Today">The date.</param>
    /// <param name="EtoMm">Reference evapotranspiration of the year so far.</param>
    /// <param name="RainMm">Rain of the year so far.</param>
    /// <param name="Advice">By controller.</param>
    private sealed record AdviceAnswer(string Site, LocalDate Today, double EtoMm, double RainMm, ListOf<InYearAdvice> Advice);
}
