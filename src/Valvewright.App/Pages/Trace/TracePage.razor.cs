using System.Globalization;
using System.Text.Json;
using NodaTime;
using Valvewright.App.Shelf;
using Valvewright.Engine.Faults;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Faults;
using Valvewright.Records;

namespace Valvewright.App.Pages.Trace;

/// <summary>What the trace of a fault does.</summary>
public sealed partial class TracePage
{
    private const string Drafts = "drafts";
    private readonly FaultModel model = FaultModelFiles.Shipped;
    private OpenedSite? site;
    private TraceSaid? said;
    private TraceCase? trace;
    private Tracer? tracer;
    private TraceView? view;
    private DueRun? run;
    private string controller = "";
    private string station = "";
    private bool phone, road, reclaimed, dosed;
    private string? kept;

    private FaultModel Model => model;

    private TraceSaid Said => said!;

    private IEnumerable<Zone> Zones => site!.Site.Controllers.FirstOrDefault(c => c.Name == controller)?.Zones ?? [];

    private string Key => $"trace:{Id}";

    private LocalDateTime Now => Clock.GetCurrentInstant().InZone(site!.Site.Zone()).LocalDateTime;

    private async Task Opened(OpenedSite opened)
    {
        site = opened;
        said = new TraceSaid(model, opened.Site, T.All.Language);
        if (controller.Length == 0)
        {
            controller = opened.Site.Controllers[0].Name;
        }

        trace ??= await Shelf.Get<TraceCase>(Drafts, Key);
        Look();
    }

    private Task Begin(string complaint)
    {
        SiteController chosen = site!.Site.ControllerNamed(controller);
        int? number = int.TryParse(station, CultureInfo.InvariantCulture, out int typed) ? typed : null;
        TraceFacts facts = TraceFacts.Of(site.Site, chosen, number);
        TraceCase begun = new()
        {
            Site = site.Site.Name, Controller = controller, Station = number, Complaint = complaint, Began = Now, OnPhone = phone,
            Facts = facts with { IsAtRoad = road, IsReclaimed = reclaimed || facts.IsReclaimed, IsDosed = dosed },
        };
        return Take(SettingsEvidence.OfPlan(model, site.Site, chosen, site.BestPlan?.Saved.Plan, number, Now).Aggregate(begun, (sofar, answer) => sofar.With(answer with { At = Now })));
    }

    private async Task Take(TraceCase changed)
    {
        trace = changed;
        kept = null;
        Look();
        try
        {
            await Shelf.Put(Drafts, Key, changed);
        }
        catch (ShelfException reason)
        {
            kept = T[reason.IsFull ? "visits.full" : "visits.notKept"];
        }
    }

    /// <summary>A trace of a controller that the survey no longer has is let go.</summary>
    private void Look()
    {
        if (trace is null || site!.Site.Controllers.FirstOrDefault(c => c.Name == trace.Controller) is not { } chosen || model.ComplaintNamed(trace.Complaint) is null)
        {
            (trace, view) = (null, null);
            return;
        }

        if (tracer?.Facts != trace.Facts)
        {
            tracer = new Tracer(model, trace.Facts);
        }

        view = tracer.Look(trace);
        run = view.End is null ? null : SettingsEvidence.NextRun(site.Site, chosen, site.BestPlan?.Saved.Plan, trace.Station, Now);
    }

    private string Speaking(CauseShare cause) => string.Join("; ", new[] { ("for", cause.For), ("against", cause.Against) }
        .Where(s => s.Item2.Count > 0).Select(s => Said.Fill(s.Item1, ("steps", string.Join(", ", s.Item2.Select(Said.Step))))));

    /// <summary>A trace on the telephone is kept as a reading, one on site as a visit with what was measured.</summary>
    private async Task Record()
    {
        Guid id = Ids.New();
        string notes = TraceNotes.Of(trace!, view!, Said, T);
        (string kind, string body) = trace!.OnPhone
            ? ("reading", JsonSerializer.Serialize(new ReadingValue(trace.Controller, Now, "", notes), Json.Compact))
            : ("visit", JsonSerializer.Serialize(TraceNotes.VisitOf(trace, Now, notes), Json.Compact));
        try
        {
            await Unsent.KeepOnly(id, Id, kind, $"api/sites/{Id}/{kind}s/{id}", "application/json", body, null);
            kept = T["trace.recorded"];
            _ = Unsent.SendAsync();
        }
        catch (ShelfException reason)
        {
            kept = T[reason.IsFull ? "visits.full" : "visits.notKept"];
        }
    }

    private async Task Anew()
    {
        await Shelf.Remove(Drafts, Key);
        (trace, view, kept) = (null, null, null);
    }
}
