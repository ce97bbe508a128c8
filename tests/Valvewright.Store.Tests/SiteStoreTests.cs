using System.Data.Common;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Valvewright.Engine.Values;
using Valvewright.Store.Files;
using Valvewright.Records;

namespace Valvewright.Store.Tests;

/// <summary>What a store promises, wherever it is.</summary>
public abstract class SiteStoreTests(Shelf shelf) : IDisposable
{
    public void Dispose()
    {
        shelf.Dispose();
        GC.SuppressFinalize(this);
    }

    [Fact]
    public void What_was_put_is_there_after_closing_and_opening()
    {
        Guid site, visit = Ids.New();
        using (SiteStore store = shelf.Open())
        {
            site = Shelf.Site(store);
            store.Put(site, visit, Shelf.Visit("wet box"), null, Shelf.Ana);
        }

        using SiteStore again = shelf.Open();
        Assert.Equal("Heron Bank", Assert.Single(again.Sites()).Value.Name);
        Kept<VisitValue> kept = Assert.Single(again.All<VisitValue>(site));
        Assert.Equal(new Kept<VisitValue>(site, visit, 1, Shelf.Visit("wet box"), Shelf.Ana), kept);
        Assert.True(shelf.Check().IsWhole);
    }

    [Fact]
    public void Migrations_say_all_that_the_model_says()
    {
        using SiteStore store = shelf.Open();
        using StoreContext context = store.Context();
        Assert.False(context.Database.HasPendingModelChanges());
    }

    [Fact]
    public void What_is_sent_twice_counts_once()
    {
        using SiteStore store = shelf.Open();
        Guid site = Shelf.Site(store), visit = Ids.New();
        Assert.Equal(Outcome.Made, store.Put(site, visit, Shelf.Visit(), null, Shelf.Ana).Outcome);
        Assert.Equal(Outcome.Same, store.Put(site, visit, Shelf.Visit(), null, Shelf.Ben).Outcome);
        Assert.Equal(Outcome.Changed, store.Put(site, visit, Shelf.Visit("x"), 1, Shelf.Ben).Outcome);
        Assert.Equal(Outcome.Same, store.Put(site, visit, Shelf.Visit("x"), 1, Shelf.Ben).Outcome);
        Assert.Single(store.All<VisitValue>(site));
        Assert.Equal(3, store.History(site, 100).Count);
    }

    [Fact]
    public void Of_two_who_change_one_version_the_second_is_told()
    {
        using SiteStore store = shelf.Open();
        Guid site = Shelf.Site(store);
        SiteValue anas = new("Heron Bank", "site: Heron Bank\n# Ana\n", "d1"), bens = anas with { Survey = "site: Heron Bank\n# Ben\n" };
        Assert.Equal(Outcome.Changed, store.PutSite(site, anas, 1, Shelf.Ana).Outcome);
        Answer<SiteValue> second = store.PutSite(site, bens, 1, Shelf.Ben);
        Assert.Equal(Outcome.Conflict, second.Outcome);
        Assert.Equal((2, anas), (second.Record!.Version, second.Record.Value));
        Assert.Equal(Outcome.NeedsVersion, store.PutSite(site, bens, null, Shelf.Ben).Outcome);
        Assert.Equal(anas, store.Site(site)!.Value);
    }

    [Fact]
    public void Records_of_other_sites_and_kinds_are_out_of_reach()
    {
        using SiteStore store = shelf.Open();
        Guid one = Shelf.Site(store), other = Shelf.Site(store, "Other"), visit = Ids.New();
        store.Put(one, visit, Shelf.Visit(), null, Shelf.Ana);
        Assert.Null(store.Find<VisitValue>(other, visit));
        Assert.Null(store.Find<ReadingValue>(one, visit));
        Assert.Equal(Outcome.Taken, store.Put(other, visit, Shelf.Visit("x"), 1, Shelf.Ben).Outcome);
        Assert.Equal(Outcome.Missing, store.Remove<VisitValue>(other, visit, 1, Shelf.Ben).Outcome);
        Assert.Equal(Outcome.Missing, store.Put(Ids.New(), Ids.New(), Shelf.Visit(), null, Shelf.Ben).Outcome);
    }

    [Fact]
    public void Removing_and_undoing_are_entries_too()
    {
        using SiteStore store = shelf.Open();
        Guid site = Shelf.Site(store), visit = Ids.New();
        store.Put(site, visit, Shelf.Visit("first"), null, Shelf.Ana);
        store.Put(site, visit, Shelf.Visit("second"), 1, Shelf.Ben);
        store.Remove<VisitValue>(site, visit, 2, Shelf.Ben);
        Assert.Empty(store.All<VisitValue>(site));

        ListOf<HistoryEntry> entries = store.History(site, 100);
        Assert.Equal(Outcome.Conflict, store.Undo(site, entries[1].Number, Shelf.Ana));
        Assert.Equal(Outcome.Changed, store.Undo(site, entries[0].Number, Shelf.Ana));
        Assert.Equal("second", store.Find<VisitValue>(site, visit)!.Value.Notes);
        Assert.Equal(Outcome.Changed, store.Undo(site, entries[1].Number, Shelf.Ana));
        Kept<VisitValue> back = store.Find<VisitValue>(site, visit)!;
        Assert.Equal(("first", 5), (back.Value.Notes, back.Version));

        HistoryEntry last = store.History(site, 1)[0];
        Assert.Equal((entries[1].Number, "Ana"), (last.UndoOf, last.Changed.By));
        Assert.Contains("second", last.Before, StringComparison.Ordinal);
        Assert.Equal(Outcome.Missing, store.Undo(site, 12345, Shelf.Ana));
        Assert.True(shelf.Check().IsWhole);
    }

    [Fact]
    public void Several_changes_are_made_together_or_not_at_all()
    {
        using SiteStore store = shelf.Open();
        Guid site = Shelf.Site(store), visit = Ids.New();
        Change good = new(site, visit, RecordKind.Visit, Shelf.Visit(), null, Shelf.Ana);
        Change bad = new(Ids.New(), Ids.New(), RecordKind.Visit, Shelf.Visit(), null, Shelf.Ana);
        Assert.Equal([Outcome.Made, Outcome.Missing], store.PutAll([good, bad]));
        Assert.Empty(store.All<VisitValue>(site));
        Assert.Equal([Outcome.Made, Outcome.Same], store.PutAll([good, good]));
    }

    [Fact]
    public void Bytes_are_kept_once_and_looked_through()
    {
        byte[] bytes = Encoding.ASCII.GetBytes("date,tmax\n");
        string digest = SiteStore.DigestOf(bytes);
        using (SiteStore store = shelf.Open())
        {
            Guid one = Shelf.Site(store), two = Shelf.Site(store, "Two");
            foreach (Guid site in new[] { one, two })
            {
                Assert.Equal(Outcome.Made,
                    store.Put(site, Ids.WeatherOf(site), new WeatherValue("w.csv", digest, bytes.Length), null, Shelf.Ana, bytes).Outcome);
            }

            Assert.Equal(bytes, store.Blob(digest));
            Assert.ThrowsAny<ArgumentException>(
                () => store.Put(one, Ids.WeatherOf(one), new WeatherValue("w.csv", "other", 1), 1, Shelf.Ana, bytes));
        }

        Assert.True(shelf.Check().IsWhole);
        using (SiteStore store = shelf.Open())
        using (StoreContext context = store.Context())
        {
            context.Blobs.ExecuteUpdate(u => u.SetProperty(b => b.Bytes, new byte[1]));
        }

        Assert.Contains("have changed", Assert.Single(shelf.Check().Faults), StringComparison.Ordinal);
    }

    [Fact]
    public void History_cannot_be_rewritten_and_a_record_without_its_history_is_found()
    {
        using (SiteStore store = shelf.Open())
        {
            Shelf.Site(store);
        }

        Assert.ThrowsAny<DbException>(() => shelf.Meddle("UPDATE \"History\" SET \"By\" = 'x'"));
        Assert.ThrowsAny<DbException>(() => shelf.Meddle("DELETE FROM \"History\""));
        shelf.Meddle("UPDATE \"Records\" SET \"Value\" = '{}'");
        Assert.Contains("differs from its history", Assert.Single(shelf.Check().Faults), StringComparison.Ordinal);
    }

    [Fact]
    public void Names_are_kept_as_they_are_whatever_they_hold()
    {
        const string Name = "'); DROP TABLE Records;-- <script>alert(1)</script> \u202E ñ 🌵";
        using SiteStore store = shelf.Open();
        Guid site = Shelf.Site(store, Name);
        Assert.Equal(Name, store.Site(site)!.Value.Name);
        Assert.True(shelf.Check().IsWhole);
    }

    [Fact]
    public void A_store_of_a_later_version_is_refused()
    {
        using (SiteStore store = shelf.Open())
        {
            Shelf.Site(store);
        }

        shelf.Meddle("INSERT INTO \"__EFMigrationsHistory\" VALUES ('99990101000000_Later', '99')");
        Assert.Contains("later version", Assert.Throws<StoreException>(shelf.Open).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Threads_that_write_lose_nothing()
    {
        using SiteStore store = shelf.Open();
        Guid site = Shelf.Site(store);
        Parallel.For(0, 8, new ParallelOptions { MaxDegreeOfParallelism = 8 }, w =>
        {
            for (int i = 0; i < 10; i++)
            {
                Assert.Equal(Outcome.Made, store.Put(site, Ids.New(), Shelf.Visit($"{w}/{i}"), null, Shelf.Ana).Outcome);
            }
        });
        Assert.Equal(80, store.All<VisitValue>(site).Select(v => v.Value.Notes).Distinct().Count());
    }
}
