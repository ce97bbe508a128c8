using System.Text.Json;
using Valvewright.Records.Views;
using Valvewright.Records;
using Valvewright.Server.Hosting;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Store;

namespace Valvewright.Server.Sites;

/// <summary>What was changed at a site, and taking it back.</summary>
internal sealed class HistoryEndpoints(SiteStore store, IClock clock) : IEndpoints
{
    private const int UsualMost = 50;
    private const int LargestMost = 500;

    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/sites/{site}/history", Get).Gives<ListOf<EntryView>>(
            "What was changed, the latest first; of a removed site as well.");
        routes.MapPost("/api/sites/{site}/history/{entry}/undo", Undo).Gives<EntryView>("Takes a change back, as a new entry.");
    }

    private IResult Get(string site, int? most, long? before)
    {
        Given.Amount(most, "most", 1, LargestMost);
        ListOf<HistoryEntry> entries = store.History(Given.Id(site, "site"), most ?? UsualMost, before ?? long.MaxValue);
        return entries.Count == 0 && before is null ? throw Refusal.NotFound("site") : Answers.Json(entries.Select(View).ToListOf());
    }

    private IResult Undo(string site, string entry, string? by)
    {
        Guid id = Given.Id(site, "site");
        long number = long.TryParse(entry, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture,
            out long n) ? n : throw Refusal.Wrong($"{"entry"}", $"{entry}", "the number of an entry", "Not an entry.");
        return store.Undo(id, number, Given.Stamp(by, clock)) switch
        {
            Outcome.Missing => throw Refusal.NotFound("entry"),
            Outcome.Conflict => throw new Refusal(StatusCodes.Status409Conflict, "changed-since",
                "The record has been changed again since. Take the later changes back first. Nothing was stored."),
            _ => Answers.Json(View(store.History(id, 1)[0])),
        };
    }

    private static EntryView View(HistoryEntry e) =>
        new(e.Number, e.Kind, e.Record, e.Version, e.Changed, Element(e.Before), Element(e.After), e.UndoOf, e.BroughtIn);

    private static JsonElement? Element(string? json) => json is null ? null : JsonSerializer.Deserialize<JsonElement>(json);
}
