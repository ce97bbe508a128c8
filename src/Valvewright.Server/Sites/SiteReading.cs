using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Plans;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys;
using Valvewright.Files.Weather;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Store;
using Valvewright.Records;

namespace Valvewright.Server.Sites;

/// <summary>The years of a site's weather.</summary>
/// <param name="Training">Years to plan with.</param>
/// <param name="HeldBack">Years to prove on.</param>
/// <param name="Explanation">Which are which, and why.</param>
internal sealed record SiteYears(ListOf<Climate> Training, ListOf<Climate> HeldBack, Sentence Explanation);

/// <summary>Reads the surveys and weather of sites that are in the store. No file of this machine is ever read for a survey.</summary>
internal static class SiteReading
{
    private const string Name = "survey";
    private const string Unusable = "weather-unusable";
    private const int LongestSiteName = 200;
    private const int LongestFileName = 200;

    /// <summary>Reads the text of a survey.</summary>
    /// <exception cref="Refusal">It has problems.</exception>
    public static (SiteValue Value, Site Site, ListOf<Problem> Questions) Survey(string text)
    {
        SurveyReading reading = SurveyFiles.ParseApart(text, Name);
        if (reading.Site is not { } site)
        {
            throw Refusal.Of(reading.Problems, "The survey cannot be used as it stands. Nothing was stored.");
        }

        Given.Line(site.Name, "site", LongestSiteName);
        return (new SiteValue(site.Name, text, SavedPlan.DigestOf(site)), site, reading.Warnings);
    }

    /// <summary>A site of the store.</summary>
    public static (Kept<SiteValue> Kept, Site Site, ListOf<Problem> Questions) Of(SiteStore store, string id)
    {
        Kept<SiteValue> kept = store.Site(Given.Id(id, "site")) ?? throw Refusal.NotFound("site");
        (_, Site site, ListOf<Problem> questions) = Survey(kept.Value.Survey);
        return (kept, site, questions);
    }

    /// <summary>The name of a weather file: without a folder, and one that every system takes.</summary>
    public static string FileName(string name) =>
        Given.Line(name, "name", LongestFileName) is { Length: > 0 } given && given.All(c => char.IsLetterOrDigit(c) || c is '.' or '-' or '_' or ' ') && !given.StartsWith('.')
            ? given
            : throw Refusal.Wrong($"{"name"}", $"{name}", "letters, digits, spaces, '.', '-' and '_', without a folder", "A weather file cannot have that name.");

    /// <summary>The name that a survey's weather file has without its folder; null where the survey names none.</summary>
    public static string? WeatherName(Site site) => site.Weather?.File?.Split('/', '\\')[^1];

    /// <summary>The years of a site's weather.</summary>
    /// <exception cref="Refusal">There is no weather, or it can't be used.</exception>
    public static SiteYears Years(SiteStore store, Guid id, Site site)
    {
        (_, BuiltClimate built, YearSplit split) = Climate(store, id, site);
        return new SiteYears(split.Training.Select(y => y.Of(built.Climate)).ToListOf(), split.HeldBack.Select(y => y.Of(built.Climate)).ToListOf(), split.Explanation);
    }

    /// <summary>A site's weather as it was sent and as the engine takes it.</summary>
    /// <exception cref="Refusal">There is no weather, or it can't be used.</exception>
    public static (WeatherRecord Record, BuiltClimate Built, YearSplit Years) Climate(SiteStore store, Guid id, Site site)
    {
        WeatherReading reading = Weather(store, id, site);
        if (!reading.Ok)
        {
            throw Refusal.Of(reading.Problems, "The site's weather cannot be used.", Unusable);
        }

        try
        {
            BuiltClimate built = ClimateBuilder.Build(reading.Record!);
            return (reading.Record!, built, built.Split(site.Place.LatitudeDeg));
        }
        catch (ArgumentException reason)
        {
            throw Refusal.Of([new Problem("weather", 0, 0, Reason.Of(reason), "whole years of days with highest and lowest temperature", null, "No reference evapotranspiration can be found from this record")], "The site's weather cannot be used.", Unusable);
        }
    }

    private static WeatherReading Weather(SiteStore store, Guid id, Site site)
    {
        if (site.Weather is null)
        {
            throw new Refusal(StatusCodes.Status422UnprocessableEntity, "weather-not-named", "The survey names no weather. Needs and plans rest on it.");
        }

        if (site.Weather.File is null)
        {
            return SiteWeather.Read(site);
        }

        Kept<WeatherValue>? kept = store.Find<WeatherValue>(id, Ids.WeatherOf(id));
        return kept is not null && store.Blob(kept.Value.Blob) is { } bytes
            ? SiteWeather.ReadBytes(site, kept.Value.Name, bytes)
            : throw new Refusal(StatusCodes.Status422UnprocessableEntity, "weather-missing", "The survey names a weather file that has not been sent. Send it to the site's weather address.")
                .Found($"{WeatherName(site)}");
    }
}
