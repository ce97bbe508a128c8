using Microsoft.AspNetCore.Components;
using NodaTime;
using Valvewright.App.Shelf;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Records;

namespace Valvewright.App.Pages.Visits.Form;

/// <summary>What the form of a visit does.</summary>
public sealed partial class VisitFormPage
{
    private const int KeepAfterMs = 300;
    private OpenedSite? site;
    private VisitDraft? draft;
    private VisitEntry? entry;
    private string cardText = "";
    private string? trouble;
    private bool isResumed;
    private bool isTried;
    private bool isPending;
    private bool isFinishing;
    private bool isDiscarding;
    private CancellationTokenSource? keeping;

    /// <inheritdoc/>
    public void Dispose() => keeping?.Dispose();

    private static string Of(ChangeEventArgs change) => change.Value?.ToString() ?? "";

    private async Task Opened(OpenedSite opened)
    {
        site = opened;
        if (draft is null)
        {
            VisitDraft? kept = await Drafts.FindAsync(Id, Visit);
            isResumed = kept is not null;
            draft = kept ?? Begin(opened);
        }

        Understand();
    }

    /// <summary>Another window has written to it: it goes on from there.</summary>
    private Task Reread()
    {
        draft = null;
        return Opened(site!);
    }

    /// <summary>Another window takes it over: what was typed last is kept at once.</summary>
    private async Task LastWords()
    {
        if (isPending && draft is not null)
        {
            keeping?.Cancel();
            await Drafts.KeepAsync(Id, draft);
        }
    }

    private VisitDraft Begin(OpenedSite opened)
    {
        if (Visit is { } id && VisitLine.Of(opened, Unsent.Records).FirstOrDefault(v => v.Id == id) is { } line)
        {
            string? version = line.Record is { Refusal: null } waiting ? waiting.Version : line.View is { } view
                ? $"\"{view.Version}\"" : null;
            return VisitDraft.Of(id, version, line.Value) with { Cells = CellsOf(opened, line.Value.Controller) };
        }

        LocalDateTime now = Clock.GetCurrentInstant().InZone(opened.Site.Zone()).LocalDateTime;
        string controller = opened.Site.Controllers.FirstOrDefault(c => c.Name == Asked)?.Name
            ?? (opened.Site.Controllers.Count == 1 ? opened.Site.Controllers[0].Name : "");
        return new VisitDraft(Records.Ids.New())
        {
            Controller = controller, Date = now.Date.ToString("uuuu-MM-dd", null), Time = now.ToString("HH:mm", null),
                Cells = CellsOf(opened, controller),
        };
    }

    private static int CellsOf(OpenedSite opened, string controller) =>
        Measured.CellsOf(opened.Carried.All.Visits.Select(v => v.Value).Where(v => v.Controller == controller));

    private static IEnumerable<int> Stations(OpenedSite opened, string controller) =>
        opened.Site.Controllers.FirstOrDefault(c => c.Name == controller)?.Zones.Select(z => z.Station).Distinct().Order()
            ?? Enumerable.Empty<int>();

    private ListOf<int> Stations(OpenedSite opened) =>
        Stations(opened, draft!.Controller).Union(draft.Coils.Select(c => c.Station)).Order().ToListOf();

    /// <summary>The survey's controllers; a correction may speak of one that is there no more.</summary>
    private IEnumerable<string> Names(OpenedSite opened) =>
        opened.Site.Controllers.Select(c => c.Name).Append(draft!.Controller).Where(n => n.Length > 0).Distinct();

    private Task Controller(object? chosen)
    {
        string name = chosen?.ToString() ?? "";
        return Take(draft! with { Controller = name, Cells = CellsOf(site!, name) });
    }

    private Task At(string date, string time) => Take(draft! with { Date = date, Time = time });

    private Task Left(string text) => Take(draft! with { AsLeft = text, IsLeftTouched = text.Trim().Length > 0 });

    /// <summary>Takes what was typed: understands it, shows it, keeps it.</summary>
    private async Task Take(VisitDraft changed)
    {
        draft = changed;
        Understand();
        StateHasChanged();
        keeping?.Cancel();
        keeping = new CancellationTokenSource();
        isPending = true;
        CancellationToken mine = keeping.Token;
        try
        {
            await Task.Delay(KeepAfterMs, mine);
            isPending = false;
            await Drafts.KeepAsync(Id, draft);
            trouble = null;
        }
        catch (TaskCanceledException)
        {
            return;
        }
        catch (ShelfException reason)
        {
            trouble = T[reason.IsFull ? "visits.full" : "visits.notKept"];
        }
    }

    private void Understand()
    {
        if (site is null || draft is null)
        {
            return;
        }

        entry = VisitEntry.Of(draft, site.Site, site.BestPlan?.Saved.Plan);
        cardText = entry.At is { } at ? VisitEntry
            .CardText(site.Site, site.BestPlan?.Saved.Plan, draft.Controller, at, T.All.Language == Files.Texts.Language.Spanish) : "";
        if (!draft.IsLeftTouched && !draft.IsCorrection && draft.AsLeft != cardText)
        {
            draft = draft with { AsLeft = cardText };
            entry = VisitEntry.Of(draft, site.Site, site.BestPlan?.Saved.Plan);
        }
    }

    private string? Wrong(VisitField field) => isTried && entry!.Problems.Any(p => p.Field == field) ? "true" : null;

    private RenderFragment? Said(VisitField field, int station = 0) =>
        (isTried || field is VisitField.Battery or VisitField.Coil or VisitField.Meter)
            && entry!.Problems.Any(p => p.Field == field && p.Station == station)
        ? builder =>
        {
            builder.OpenElement(0, "span");
            builder.AddAttribute(1, "class", "wrong");
            builder.AddContent(2, T[$"visits.problem.{field}"]);
            builder.CloseElement();
        }
        : null;

    private async Task Finish(OpenedSite opened)
    {
        isTried = true;
        if (entry?.Value is not { } value)
        {
            return;
        }

        isFinishing = true;
        keeping?.Cancel();
        try
        {
            await Drafts.FinishAsync(opened.Id, draft!, value);
        }
        catch (ShelfException reason)
        {
            trouble = T[reason.IsFull ? "visits.full" : "visits.notKept"];
            isFinishing = false;
            return;
        }

        _ = Unsent.SendAsync();
        Navigation.NavigateTo($"sites/{Id}/visits");
    }

    private async Task Discard(OpenedSite opened)
    {
        keeping?.Cancel();
        await Drafts.DiscardAsync(opened.Id, draft!);
        Navigation.NavigateTo($"sites/{Id}/visits");
    }
}
