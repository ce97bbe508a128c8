using System.Text.Json;
using NodaTime;
using Valvewright.App.Pages.Visits;
using Valvewright.App.Shelf;
using Valvewright.Engine.Checks.Seen;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Checks;
using Valvewright.Records;
using Valvewright.Work;

namespace Valvewright.App.Pages.Reading;

/// <summary>What the check of a reading does.</summary>
public sealed partial class ReadingPage
{
    private const string Drafts = "drafts";
    private OpenedSite? site;
    private CheckSaid? said;
    private ReadingDraft? draft;
    private ReadText read = ReadingText.Parse("");
    private SeenText seen = new([], []);
    private CheckReport? answer;
    private CheckRequest? asked;
    private CancellationTokenSource? running;
    private bool isRunning;
    private double done;
    private string? kept;

    private bool HasReading => read.Reading with { Controller = null, ReadAt = null } != new Engine.Readings.Reading();

    /// <inheritdoc/>
    public void Dispose()
    {
        running?.Cancel();
        running?.Dispose();
    }

    private string Key => $"reading:{Id}";

    private async Task Opened(OpenedSite opened)
    {
        site = opened;
        said = new CheckSaid(opened.Site, T.All.Language);
        draft ??= await Shelf.Get<ReadingDraft>(Drafts, Key) ?? Blank();
        await Judge();
    }

    private ReadingDraft Blank()
    {
        LocalDateTime now = Clock.GetCurrentInstant().InZone(site!.Site.Zone()).LocalDateTime;
        return new ReadingDraft(Ids.New())
        {
            Controller = site.Site.Controllers.Count == 1 ? site.Site.Controllers[0].Name : draft?.Controller ?? "",
                Date = now.Date.ToString("uuuu-MM-dd", null), Time = now.ToString("HH:mm", null),
        };
    }

    private async Task Take(ReadingDraft changed)
    {
        draft = changed;
        kept = null;
        await Store();
        await Judge();
    }

    private async Task Store()
    {
        try
        {
            await Shelf.Put(Drafts, Key, draft! with { At = Clock.GetCurrentInstant() });
        }
        catch (ShelfException reason)
        {
            kept = T[reason.IsFull ? "visits.full" : "visits.notKept"];
        }
    }

    /// <summary>Understands what was typed, then judges it; what is asked again ends what was asked before.</summary>
    private async Task Judge()
    {
        SiteController? controller = site!.Site.Controllers.FirstOrDefault(c => c.Name == draft!.Controller);
        read = ReadingText.Parse(draft!.Text, controller?.Profile, site.Site.Clock, SiteNames.Of(site.Site, controller));
        seen = ObservationText.Parse(draft.Seen, site.Site.Clock, SiteNames.Of(site.Site, controller));
        if (controller is null && read.Reading.Controller is { } named && site.Site.Controllers.FirstOrDefault(
            c => string.Equals(c.Name, named, StringComparison.OrdinalIgnoreCase)) is { } dictated)
        {
            draft = draft with { Controller = dictated.Name };
            controller = dictated;
        }

        if (controller is null || (!HasReading && seen.Observations.Count == 0)
            || (read.Reading.ReadAt ?? VisitEntry.Moment(draft.Date, draft.Time)) is not { } at)
        {
            (answer, asked) = (null, null);
            running?.Cancel();
            return;
        }

        Plan? plan = draft.IsAlone ? null : site.BestPlan?.Saved.Plan;
        CheckRequest now = new(
            site.Site, controller, plan, read, seen.Observations.Count == 0 ? null : seen.Observations, at, said!.Language);
        if (now == asked)
        {
            return;
        }

        asked = now;
        running?.Cancel();
        running = new CancellationTokenSource();
        (isRunning, done) = (true, 0);
        try
        {
            answer = await CheckRun.Of(now, Progress, running.Token);
            isRunning = false;
        }
        catch (OperationCanceledException)
        {
            // Another one runs in its place.
            return;
        }

        StateHasChanged();
    }

    private void Progress(double part)
    {
        done = part;
        StateHasChanged();
    }

    private async Task Keep()
    {
        LocalDateTime at = read.Reading.ReadAt ?? VisitEntry.Moment(draft!.Date, draft.Time) ?? Clock.GetCurrentInstant()
            .InZone(site!.Site.Zone()).LocalDateTime;
        ReadingValue value = new(draft!.Controller, at, draft.Text.Trim(), draft.Seen.Trim());
        try
        {
            await Unsent.KeepOnly(draft.Id, Id, "reading", $"api/sites/{Id}/readings/{draft.Id}", "application/json",
                JsonSerializer.Serialize(value, Json.Compact), draft.Version);
            kept = T["reading.kept"];
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
        await Take(Blank());
    }

    private Task Reopen(KeptReading reading) => Take(new ReadingDraft(reading.Id)
    {
        Version = reading.Version, Controller = reading.Value.Controller, Date = reading.Value.ReadAt.Date.ToString("uuuu-MM-dd", null),
            Time = reading.Value.ReadAt.ToString("HH:mm", null), Text = reading.Value.Text, Seen = reading.Value.Notes,
        IsAlone = draft!.IsAlone,
    });
}
