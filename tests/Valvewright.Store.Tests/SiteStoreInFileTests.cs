using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;
using Valvewright.Records;
using Valvewright.Store.Files;

namespace Valvewright.Store.Tests;

/// <summary>A store in a file, and what is so only there.</summary>
public sealed class SiteStoreInFileTests : SiteStoreTests
{
    private readonly FileShelf shelf;

    public SiteStoreInFileTests()
        : this(new FileShelf())
    {
    }

    private SiteStoreInFileTests(FileShelf shelf)
        : base(shelf) => this.shelf = shelf;

    [Fact]
    public void The_file_is_kept_as_promised()
    {
        using SiteStore store = shelf.Open();
        using StoreContext context = store.Context();
        context.Database.OpenConnection();
        SqliteConnection connection = (SqliteConnection)context.Database.GetDbConnection();
        Assert.Equal("wal", connection.Scalar("PRAGMA journal_mode"));
        Assert.Equal(1L, connection.Scalar("PRAGMA foreign_keys"));
        Assert.Equal(2L, connection.Scalar("PRAGMA synchronous"));
        Assert.Equal(30000L, connection.Scalar("PRAGMA busy_timeout"));
    }

    [Fact]
    public void A_store_is_open_once_and_other_databases_are_refused()
    {
        using (SiteStore store = shelf.Open())
        {
            Assert.Contains("another program", Assert.Throws<StoreException>(shelf.Open).Message, StringComparison.Ordinal);
        }

        shelf.Meddle("PRAGMA application_id=7");
        Assert.Contains("not a store", Assert.Throws<StoreException>(shelf.Open).Message, StringComparison.Ordinal);
        File.WriteAllText(shelf["text.db"], new string('x', 5000));
        Assert.Contains("damaged", Assert.Throws<StoreException>(() => SiteStore.Open(shelf["text.db"])).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_migration_that_was_killed_keeps_nobody_waiting()
    {
        shelf.Meddle(
            """
            CREATE TABLE "__EFMigrationsLock" ("Id" INTEGER NOT NULL PRIMARY KEY, "Timestamp" TEXT NOT NULL);
            INSERT INTO "__EFMigrationsLock" VALUES (1, '2026-01-01')
            """);
        using SiteStore store = shelf.Open();
        Shelf.Site(store);
    }

    [Fact]
    public void A_store_of_the_first_version_is_brought_up_to_date_with_all_that_is_in_it()
    {
        Guid site = Ids.New(), plan = Ids.New();
        using (StoreContext context = new(new DbContextOptionsBuilder<StoreContext>().UseSqlite(StoreConnection.For(shelf.Place)).Options))
        {
            context.GetService<IMigrator>().Migrate("20261125144305_FirstTables");
        }

        foreach ((Guid id, string kind, string value) in new[]
        {
            (site, "Site", """{"name":"Heron Bank","survey":"site: Heron Bank\n","digest":"d1"}"""),
            (plan, "Plan", """{"survey":"d1","from":"2026-04-01","plan":"{}","proof":null}"""),
        })
        {
            string row = $"'{id:D}', '{site:D}', '{kind}', 1, '{value}', '2026-04-01T07:30:00Z', 'Ana'".Replace(
                $"{id:D}", $"{id:D}".ToUpperInvariant(), StringComparison.Ordinal)
                    .Replace($"{site:D}", $"{site:D}".ToUpperInvariant(), StringComparison.Ordinal);
            shelf.Meddle(
                $"INSERT INTO Records (Id, SiteId, Kind, Version, Value, At, By) VALUES ({row}); "
                + $"INSERT INTO History (RecordId, SiteId, Kind, Version, Value, At, By) VALUES ({row});");
        }

        shelf.Meddle($"PRAGMA application_id={StoreConnection.ApplicationId}");
        using SiteStore store = shelf.Open();
        Assert.All(store.History(site, 10), h => Assert.Equal((Shelf.Ana, null), (h.Changed, h.BroughtIn)));

        // What said the same before says the same still: sent again, it is no change.
        Assert.Equal(Outcome.Same, store.Put(site, plan, new PlanValue("d1", new LocalDate(2026, 4, 1), "{}"), null, Shelf.Ben).Outcome);
        Assert.Equal(Outcome.Same, store.PutSite(site, new SiteValue("Heron Bank", "site: Heron Bank\n", "d1"), null, Shelf.Ben).Outcome);
        Assert.True(shelf.Check().IsWhole);
    }
}
