using System.Data.Common;
using System.Text;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Records;
using Valvewright.Store.Files;

namespace Valvewright.Store.Tests;

public sealed class StoreMovesTests : IDisposable
{
    private readonly FileShelf file = new();
    private readonly PostgresShelf database = new();

    public void Dispose()
    {
        file.Dispose();
        database.Dispose();
    }

    [Fact]
    public void Everything_goes_there_and_back_and_history_counts_on()
    {
        Guid site = Fill(file);
        string before = Everything(file.Place);
        Intact there = StoreMoves.Make(file.Place, database.Place);
        Assert.Equal((1, 3, 1108, true), (there.Sites, there.Records, there.Entries, there.IsWhole));
        Assert.Equal(before, Everything(database.Place));
        string back = file["back.db"];
        Assert.Equal(there, StoreMoves.Make(database.Place, back));
        Assert.Equal(before, Everything(back));
        Assert.Equal(before, Everything(file.Place));
        foreach (string place in new[] { database.Place, back })
        {
            using SiteStore store = SiteStore.Open(place);
            long last = store.History(site, 1)[0].Number;
            Assert.Equal(Outcome.Made, store.Put(site, Ids.New(), Shelf.Visit("next"), null, Shelf.Ana).Outcome);
            Assert.True(store.History(site, 1)[0].Number > last);
        }
    }

    [Fact]
    public void A_database_goes_to_another()
    {
        Fill(database);
        using PostgresShelf other = new();
        StoreMoves.Make(database.Place, other.Place);
        Assert.Equal(Everything(database.Place), Everything(other.Place));
    }

    [Fact]
    public void A_backup_of_a_database_is_a_file_and_is_made_while_it_is_open()
    {
        Guid site = Fill(database);
        using SiteStore store = database.Open();
        Intact copied = Backups.Make(database.Place, file["copy.db"]);
        Assert.Equal(1108, copied.Entries);
        Assert.Equal(["copy.db"], Directory.GetFiles(file.Folder).Select(Path.GetFileName));
        Assert.Equal(Everything(database.Place), Everything(file["copy.db"]));
        Backups.PutBack(file["copy.db"], file.Place, Instant.FromUtc(2026, 5, 1, 12, 0));
        using SiteStore restored = file.Open();
        Assert.NotNull(restored.Site(site));
        Assert.Contains("valvewright move", Assert.Throws<StoreException>(
            () => Backups.PutBack(file["copy.db"], database.Place, Instant.FromUtc(2026, 5, 1, 12, 0))).Message, StringComparison.Ordinal);
        Assert.Contains("valvewright move",
            Assert.Throws<StoreException>(() => Backups.Make(file["copy.db"], database.Place)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_store_that_holds_something_is_not_written_to()
    {
        Fill(file);
        using (SiteStore store = database.Open())
        {
            Shelf.Site(store);
        }

        string before = Everything(database.Place);
        Assert.Contains("not empty: 1 sites, 1 changes",
            Assert.Throws<StoreException>(() => StoreMoves.Make(file.Place, database.Place)).Message, StringComparison.Ordinal);
        Assert.Equal(before, Everything(database.Place));
        Assert.Contains("not empty",
            Assert.Throws<StoreException>(() => StoreMoves.Make(database.Place, file.Place)).Message, StringComparison.Ordinal);
        Assert.Contains("itself",
            Assert.Throws<StoreException>(() => StoreMoves.Make(file.Place, file["./sites.db"])).Message, StringComparison.Ordinal);
        Assert.Contains("file not found",
            Assert.Throws<StoreException>(() => StoreMoves.Make(file["none.db"], file["new.db"])).Message, StringComparison.Ordinal);
        Assert.False(File.Exists(file["new.db"]) || File.Exists(file["none.db"]));
    }

    /// <summary>A store that is damaged is not passed on, and of the new one nothing is left.</summary>
    [Fact]
    public void What_is_not_whole_is_not_moved()
    {
        Fill(database);
        database.Meddle("UPDATE \"Records\" SET \"Value\" = '{}' WHERE \"Kind\" = 'Visit'");
        Assert.Contains("differs from its history",
            Assert.Throws<StoreException>(() => StoreMoves.Make(database.Place, file.Place)).Message, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(file.Folder));
    }

    /// <summary>Sites, one of them removed; versions, removals, an undoing, bytes, a history from elsewhere, gaps in the numbers.</summary>
    private static Guid Fill(Shelf shelf)
    {
        using SiteStore store = shelf.Open();
        Guid site = Shelf.Site(store, "Łąka ñ 🌵 \u0000"), gone = Shelf.Site(store, "Gone"), visit = Ids.New(), photo = Ids.New();
        byte[] picture = [0xFF, 0xD8, 0, 1, 0x27];
        store.Put(site, visit, Shelf.Visit("first"), null, Shelf.Ana);
        PhotoValue value = new(visit, "image/jpeg", SiteStore.DigestOf(picture), picture.Length);
        store.Put(site, photo, value, null, Shelf.Ben, picture);
        store.Remove<PhotoValue>(site, photo, 1, Shelf.Ben);
        store.PutSite(site, new SiteValue("Heron Bank", "site: Heron Bank\n# 2\n", "d1"), 1,
            new Stamp("Ana", Instant.FromUtc(2026, 4, 1, 7, 30).PlusNanoseconds(1)));
        store.Undo(site, store.History(site, 1)[0].Number, Shelf.Ana);
        store.Remove<SiteValue>(gone, gone, 1, Shelf.Ana);
        Guid elsewhere = Ids.New();
        store.BringIn(site, [.. Enumerable.Range(1, 1100).Select(v => new PastEntry(
            v, RecordKind.Visit, elsewhere, v, Shelf.Ana, Shelf.Visit($"version {v}"), v == 1100 ? 1099 : null))],
            new Dictionary<string, byte[]>(), Shelf.Ben);
        return site;
    }

    /// <summary>All rows of all tables, as text.</summary>
    private static string Everything(string place)
    {
        using StoreContext context = StorePlace.Of(place).Context();
        StringBuilder text = new();
        foreach (var row in context.Blobs.AsNoTracking().AsEnumerable().OrderBy(b => b.Digest, StringComparer.Ordinal))
        {
            text.AppendLine(Json.Write(row));
        }

        foreach (var row in context.Records.AsNoTracking().AsEnumerable().OrderBy(r => r.Id))
        {
            text.AppendLine(Json.Write(row));
        }

        foreach (var row in context.History.AsNoTracking().OrderBy(h => h.Number))
        {
            text.AppendLine(Json.Write(row));
        }

        return text.ToString();
    }
}
