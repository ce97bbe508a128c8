using System.Text.Json;
using Valvewright.App.Shelf;
using Valvewright.App.Texts;
using Valvewright.Engine.Season;
using Valvewright.Engine.Words;
using Valvewright.Files.Texts;
using Valvewright.Records.Jobs;

namespace Valvewright.App.Pages.History;

/// <summary>The season that is kept beside a plan, as a person reads it in the history: which years it was found with, and its
/// visits.</summary>
public static class SeasonSaid
{
    /// <summary>The season in words; null where the text is none.</summary>
    /// <param name="json">The season as it is kept.</param>
    /// <param name="words">The person's language.</param>
    public static string? Of(string json, PageWords words)
    {
        SeasonKept? kept;
        try
        {
            kept = PageJson.Read<SeasonKept>(json);
        }
        catch (JsonException)
        {
            return null;
        }

        // A season that was kept before its sentence had places says it in English.
        return kept?.Season is { } season
            ? $"{Years(kept.YearsSaid?.ToSentence() ?? kept.Years, words)} {words.Fill("history.season.visits", ("visits", string.Join("; ", season.Dates.Select((_, i) => Visit(season, i, words)))))}"
            : null;
    }

    private static string Years(Sentence years, PageWords words) =>
        words.Speaks(years) ? words.Say(years) : words.Fill("history.season.english", ("said", years.Text));

    private static string Visit(SeasonPlan season, int visit, PageWords words)
    {
        SiteWords say = words.OfDevice;
        return $"{say.Date(season.Dates[visit])}: {string.Join(", ", season.Controllers.Where(c => visit < c.Percents.Count).Select(c => $"{c.Controller} {words.Percent(c.Percents[visit])}"))}";
    }
}
