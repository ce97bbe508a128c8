using Valvewright.App.Outbox;
using Valvewright.App.Pages.Reading;
using Valvewright.App.Pages.Visits;
using Valvewright.App.Shelf;
using Valvewright.Engine.Readings;
using Valvewright.Records;
using Valvewright.Records.Jobs;

namespace Valvewright.App.Pages.Found;

/// <summary>What the displays of a site show, controller by controller, as typed or as last recorded.</summary>
/// <param name="Readings">By controller, in the survey's order; an empty text: it was not read.</param>
public sealed record FoundReadings(ListOf<FoundReading> Readings)
{
    /// <summary>What was recorded last of each controller: a reading, or how a visit left it.</summary>
    public static FoundReadings Of(OpenedSite site, IReadOnlyList<UnsentRecord> waiting)
    {
        ArgumentNullException.ThrowIfNull(site);
        ILookup<string, (LocalDateTime At, string Text)> recorded = KeptReading.Of(site, waiting)
            .Select(r => (r.Value.Controller, r.Value.ReadAt, r.Value.Text))
            .Concat(VisitLine.Of(site, waiting).Select(v => (v.Value.Controller, v.Value.At,
                v.Value.AsLeft.Length > 0 ? v.Value.AsLeft : v.Value.AsFound)))
            .Where(r => r.Item3.Trim().Length > 0).ToLookup(r => r.Item1, r => (r.Item2, r.Item3));
        return new FoundReadings(site.Site.Controllers.Where(c => c.Zones.Count > 0)
            .Select(c => recorded[c.Name].OrderByDescending(r => r.At).FirstOrDefault() is { Text: { } text } last
                ? new FoundReading(c.Name, text, last.At.Date) : new FoundReading(c.Name, "")).ToListOf());
    }

    /// <summary>The same with one controller's text as typed on a day.</summary>
    public FoundReadings With(string controller, string text, LocalDate on) =>
        new(Readings.Select(r => r.Controller == controller && r.Text != text ? new FoundReading(controller, text, on) : r).ToListOf());

    /// <summary>What is asked for; controllers that were not read keep the plan's programs.</summary>
    /// <param name="plan">The plan that is worked from; null where there is none.</param>
    /// <param name="changes">The most settings to change; null: the fewest that save most.</param>
    public JobRequest ToRequest(Guid? plan, int? changes) =>
        new("found", plan) { Read = Readings.Where(r => r.Text.Trim().Length > 0).ToListOf(), Changes = changes };

    /// <summary>What is understood of a controller's text.</summary>
    public static ReadText Understood(OpenedSite site, FoundReading reading)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(reading);
        SiteController controller = site.Site.ControllerNamed(reading.Controller);
        return ReadingText.Parse(reading.Text, controller.Profile, site.Site.Clock, SiteNames.Of(site.Site, controller));
    }
}
