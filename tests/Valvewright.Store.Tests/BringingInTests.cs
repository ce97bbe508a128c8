using NodaTime;
using Valvewright.Records;
using Valvewright.Store.Files;

namespace Valvewright.Store.Tests;

/// <summary>Histories that were made elsewhere.</summary>
public abstract class BringingInTests(Shelf shelf) : IDisposable
{
    private static readonly byte[] Picture = [0xFF, 0xD8, 0xFF, 1];

    public void Dispose()
    {
        shelf.Dispose();
        GC.SuppressFinalize(this);
    }

    [Fact]
    public void A_history_comes_in_as_it_was_marked_and_what_is_there_stays()
    {
        using SiteStore store = shelf.Open();
        Shelf.Site(store, "Another");
        Guid site = Ids.New(), visit = Ids.New(), photo = Ids.New();
        SiteValue survey = new("Heron Bank", "site: Heron Bank\n", "d1");
        PhotoValue picture = new(visit, "image/jpeg", SiteStore.DigestOf(Picture), Picture.Length);
        PastEntry[] past =
        [
            new(1, RecordKind.Site, site, 1, Shelf.Ana, survey, null),
            new(2, RecordKind.Visit, visit, 1, Shelf.Ana, Shelf.Visit("wet"), null),
            new(3, RecordKind.Photo, photo, 1, Shelf.Ana, picture, null),
            new(4, RecordKind.Visit, visit, 2, Shelf.Ben, Shelf.Visit("dry"), null),
            new(5, RecordKind.Photo, photo, 2, Shelf.Ben, null, null),
            new(6, RecordKind.Visit, visit, 3, Shelf.Ben, Shelf.Visit("wet"), 4),
        ];
        Dictionary<string, byte[]> bytes = new() { [picture.Blob] = Picture };
        Stamp dora = new("Dora", Instant.FromUtc(2026, 5, 1, 8, 0));
        Assert.All(store.BringIn(site, past, bytes, dora).Values, o => Assert.Equal(Outcome.Made, o));

        HistoryEntry[] history = [.. store.History(site, 100).Reverse()];
        Assert.Equal(past.Select(p => (p.Kind, p.Record, p.Version, p.Changed)),
            history.Select(h => (h.Kind, h.Record, h.Version, h.Changed)));
        Assert.All(history, h => Assert.Equal(dora, h.BroughtIn));
        Assert.Equal(history[3].Number, history[5].UndoOf);
        Assert.Equal(new Kept<VisitValue>(site, visit, 3, Shelf.Visit("wet"), Shelf.Ben), store.Find<VisitValue>(site, visit));
        Assert.Null(store.Find<PhotoValue>(site, photo));

        // It goes on from there, and what was removed elsewhere can be put back here, bytes and all.
        Assert.Equal(Outcome.Changed, store.Undo(site, history[4].Number, Shelf.Ana));
        Assert.Equal(Picture, store.Blob(store.Find<PhotoValue>(site, photo)!.Value.Blob));
        Assert.Equal(Outcome.Changed, store.Put(site, visit, Shelf.Visit("mended"), 3, Shelf.Ana).Outcome);
        Assert.Null(store.History(site, 1)[0].BroughtIn);

        IReadOnlyDictionary<Guid, Outcome> again = store.BringIn(site, past, bytes, dora);
        Assert.Equal((Outcome.Same, Outcome.NeedsVersion, Outcome.NeedsVersion), (again[site], again[visit], again[photo]));
        Assert.Equal("mended", store.Find<VisitValue>(site, visit)!.Value.Notes);
        Assert.Equal(8, store.History(site, 100).Count);
        Assert.True(shelf.Check().IsWhole);
    }

    [Fact]
    public void An_id_of_another_record_or_a_site_that_was_removed_stops_all_of_it()
    {
        using SiteStore store = shelf.Open();
        Guid other = Shelf.Site(store), taken = Ids.New(), site = Ids.New();
        store.Put(other, taken, Shelf.Visit(), null, Shelf.Ana);
        SiteValue survey = new("Heron Bank", "site: Heron Bank\n", "d1");
        PastEntry first = new(1, RecordKind.Site, site, 1, Shelf.Ana, survey, null);
        Dictionary<string, byte[]> none = [];
        Assert.Empty(store.BringIn(site, [first, new(2, RecordKind.Visit, taken, 1, Shelf.Ana, Shelf.Visit(), null)], none, Shelf.Ben));
        Assert.Null(store.Site(site));
        store.BringIn(site, [first], none, Shelf.Ben);
        store.Remove<SiteValue>(site, site, 1, Shelf.Ana);
        Assert.Empty(store.BringIn(site, [first, new(2, RecordKind.Visit, Ids.New(), 1, Shelf.Ana, Shelf.Visit(), null)], none, Shelf.Ben));
        Assert.True(shelf.Check().IsWhole);
    }
}

/// <summary>Into a file.</summary>
public sealed class BringingInToFileTests() : BringingInTests(new FileShelf());

/// <summary>Into a database.</summary>
public sealed class BringingInToPostgresTests() : BringingInTests(new PostgresShelf());
