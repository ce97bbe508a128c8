using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys;
using Valvewright.Files.Weather;

namespace Valvewright.Cli.Inputs;

/// <summary>A survey with its weather, read and whole; the beginning of every command that works on a site.</summary>
/// <param name="File">The site file.</param>
/// <param name="Site">The survey.</param>
/// <param name="Questions">What can be used but is questioned.</param>
/// <param name="Weather">The weather as read.</param>
/// <param name="Built">ETo and rain of every day.</param>
/// <param name="Split">Years to plan with and years to prove on.</param>
internal sealed record SiteInputs(string File, Site Site, ListOf<Problem> Questions, WeatherReading Weather, BuiltClimate Built, YearSplit Split)
{
    /// <summary>The years to plan with.</summary>
    public ListOf<Climate> Training { get; } = Split.Training.Select(y => y.Of(Built.Climate)).ToListOf();

    /// <summary>The years to prove on.</summary>
    public ListOf<Climate> HeldBack { get; } = Split.HeldBack.Select(y => y.Of(Built.Climate)).ToListOf();

    /// <summary>Reads a site file, or the site file of a folder, and the weather that it names.</summary>
    /// <exception cref="ProblemsException">Something in them can't be used.</exception>
    public static SiteInputs Read(string path, Progress progress)
    {
        progress.Step("Reading the survey");
        (string file, Site site, ListOf<Problem> questions) = ReadSurvey(path);
        progress.Step("Reading the weather");
        WeatherReading weather = SiteWeather.Read(site);
        if (!weather.Ok)
        {
            throw new ProblemsException(weather.Problems) { IsOfService = site.Weather is { File: null, Service: not null } };
        }

        BuiltClimate built = Build(site, weather);
        site = site with { Assumptions = site.Assumptions.Concat(SiteWeather.Assumed(weather.Record)).ToListOf() };
        return new SiteInputs(file, site, questions, weather, built, built.Split(site.Place.LatitudeDeg));
    }

    /// <summary>Reads a survey alone.</summary>
    /// <exception cref="ProblemsException">Something in it can't be used.</exception>
    public static (string File, Site Site, ListOf<Problem> Questions) ReadSurvey(string path)
    {
        SurveyReading reading = SurveyFiles.Read(path);
        string file = Directory.Exists(path) ? Path.Combine(path, SurveyFiles.UsualName) : path;
        return reading.Site is { } site ? (file, site, reading.Warnings) : throw new ProblemsException(reading.Problems);
    }

    /// <summary>Today where the site is.</summary>
    public static LocalDate Today(Site site) => SystemClock.Instance.GetCurrentInstant().InZone(site.Zone()).Date;

    /// <summary>Date and time where the site is, to the minute.</summary>
    public static LocalDateTime Now(Site site)
    {
        LocalDateTime now = SystemClock.Instance.GetCurrentInstant().InZone(site.Zone()).LocalDateTime;
        return now.Date + new LocalTime(now.Hour, now.Minute);
    }

    private static BuiltClimate Build(Site site, WeatherReading weather)
    {
        try
        {
            return ClimateBuilder.Build(weather.Record!);
        }
        catch (ArgumentException reason)
        {
            throw new ProblemsException(new Problem(
                site.Weather?.File ?? site.Name, 0, 0, Reason.Of(reason), "days with highest and lowest temperature, or with a published ETo", null, "no reference evapotranspiration can be found from this record"));
        }
    }
}
