using Valvewright.Files.Plans;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Store;
using Valvewright.Records;

namespace Valvewright.Server.Sites;

/// <summary>Reads the surveys and weather of sites that are in the store. No file of this machine is ever read for a survey.</summary>
internal static class SiteReading
{
    private const string Name = "survey";
    private const int LongestSiteName = 200;
    private const int LongestFileName = 200;

    /// <summary>Reads the text of a survey.</summary>
    /// <exception cref="Refusal">It has problems.</exception>
    public static (SiteValue Value, Site Site, ListOf<Problem> Questions) Survey(string text)
    {
        SurveyReading reading = SurveyFiles.ParseApart(text, Name);
        if (reading.Site is not { } site)
        {
            throw Refusal.Of(reading.Problems, "The survey cannot be used as it is. Nothing was stored.");
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
        Given.Line(name, "name", LongestFileName) is { Length: > 0 } given
            && given.All(c => char.IsLetterOrDigit(c) || c is '.' or '-' or '_' or ' ') && !given.StartsWith('.')
            ? given
            : throw Refusal.Wrong($"{"name"}", $"{name}", "letters, digits, spaces, '.', '-' and '_', without a folder",
                "A weather file cannot have that name.");

    /// <summary>The name that a survey's weather file has without its folder; null where the survey names none.</summary>
    public static string? WeatherName(Site site) => site.Weather?.File?.Split('/', '\\')[^1];

    /// <summary>A site with its weather: the file that was sent, or the service that the survey names.</summary>
    /// <exception cref="Work.RefusalException">There is no weather, or it can't be used.</exception>
    public static Work.SiteYears Years(SiteStore store, Guid id, Site site) =>
        Years(store, site, store.Find<WeatherValue>(id, Ids.WeatherOf(id))?.Value);

    /// <summary>A site with a weather file that was sent, or the service that the survey names.</summary>
    /// <exception cref="Work.RefusalException">There is no weather, or it can't be used.</exception>
    public static Work.SiteYears Years(SiteStore store, Site site, WeatherValue? sent) => site.Weather is { File: null }
        ? Work.SiteYears.Read(site)
        : Work.SiteYears.OfFile(site, sent is not null && store.Blob(sent.Blob) is { } bytes ? (sent.Name, bytes) : null);
}
