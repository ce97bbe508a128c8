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
    private FaultModel model = FaultModelFiles.Shipped;
    private OpenedSite? site;
    private TraceSaid? said;
    private ListOf<string> learned = [];
    private TraceCase? trace;
    private Guid id, visit;
    private string? version;
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
        if (learned != opened.Carried.All.ConfirmedCauses)
        {
            learned = opened.Carried.All.ConfirmedCauses;
            model = FaultModelFiles.Shipped.LearnedFrom(learned);
        }

        said = new TraceSaid(model, opened.Site, T.All.Language);
        if (controller.Length == 0)
        {
            controller = opened.Site.Controllers[0].Name;
        }

        if (trace is null && await Shelf.Get<TraceDraft>(Drafts, Key) is { Trace: { } kept } draft)
        {
            (id, visit, version, trace) = (draft.Id, draft.Visit, draft.Version, kept);
        }

        Look();
    }

    private Task Begin(string complaint)
    {
        SiteController chosen = site!.Site.ControllerNamed(controller);
        int? number = int.TryParse(station, CultureInfo.InvariantCulture, out int typed) ? typed : null;
        (id, visit, version) = (Ids.New(), Ids.New(), null);
        TraceFacts facts = TraceFacts.Of(site.Site, chosen, number);
        TraceCase begun = new()
        {
            Site = site.Site.Name, Controller = controller, Station = number, Complaint = complaint, Began = Now, OnPhone = phone,
            Facts = facts with { IsAtRoad = road, IsReclaimed = reclaimed || facts.IsReclaimed, IsDosed = dosed },
        };
        return Take(SettingsEvidence.OfPlan(model, site.Site, chosen, site.BestPlan?.Saved.Plan, number, Now)
            .Aggregate(begun, (sofar, answer) => sofar.With(answer with { At = Now })));
    }

    private async Task Take(TraceCase changed)
    {
        trace = changed;
        kept = null;
        Look();
        try
        {
            await Shelf.Put(Drafts, Key, new TraceDraft(id, visit, version, changed));
        }
        catch (ShelfException reason)
        {
            kept = T[reason.IsFull ? "visits.full" : "visits.notKept"];
        }
    }

    /// <summary>A trace of a controller that the survey no longer has is let go.</summary>
    private void Look()
    {
        if (trace is null || site!.Site.Controllers.FirstOrDefault(c => c.Name == trace.Controller) is not { } chosen
            || model.ComplaintNamed(trace.Complaint) is null)
        {
            (trace, view) = (null, null);
            return;
        }

        if (tracer?.Facts != trace.Facts || !ReferenceEquals(tracer.Model, model))
        {
            tracer = new Tracer(model, trace.Facts);
        }

        view = tracer.Look(trace);
        run = view.End is null ? null : SettingsEvidence.NextRun(site.Site, chosen, site.BestPlan?.Saved.Plan, trace.Station, Now);
    }

    private string Speaking(CauseShare cause) => string.Join("; ", new[] { ("for", cause.For), ("against", cause.Against) }
        .Where(s => s.Item2.Count > 0).Select(s => Said.Fill(s.Item1, ("steps", string.Join(", ", s.Item2.Select(Said.Step))))));

    /// <summary>An answer with who gave it, and when.</summary>
    private Task Answer(TraceAnswer answer) =>
        Take(trace!.With(answer with { By = Preferences.By.Length > 0 ? Preferences.By : null, At = Now }));

    /// <summary>The trace goes into the site's history as far as it has come; what was measured on site is kept as a visit as well,
    /// once.</summary>
    private async Task Record()
    {
        string notes = TraceNotes.Of(trace!, view!, Said, T);
        try
        {
            await Keep("trace", id, new TraceValue(trace!.Controller, Now, trace, notes), version);
            if (!trace.OnPhone && view!.End is not null && TraceNotes.VisitOf(trace, Now, notes) is { } measured)
            {
                await Keep("visit", visit, measured, null);
            }

            kept = T["trace.recorded"];
            _ = Unsent.SendAsync();
        }
        catch (ShelfException reason)
        {
            kept = T[reason.IsFull ? "visits.full" : "visits.notKept"];
        }
    }

    private Task Keep<TValue>(string kind, Guid record, TValue value, string? rests) =>
        Unsent.KeepOnly(record, Id, kind, $"api/sites/{Id}/{kind}s/{record}", "application/json",
            JsonSerializer.Serialize(value, Json.Compact), rests);

    /// <summary>Goes on with a trace that a person put aside.</summary>
    private Task TakeUp(KeptTrace chosen)
    {
        (id, visit, version) = (chosen.Id, Ids.New(), chosen.Version);
        return Take(chosen.Value.Trace);
    }

    private async Task Anew()
    {
        await Shelf.Remove(Drafts, Key);
        (trace, view, kept) = (null, null, null);
    }
}
