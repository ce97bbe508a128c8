using Microsoft.EntityFrameworkCore;
using Npgsql;
using Valvewright.Records;
using Valvewright.Store.Files;
using Valvewright.Tests.Databases;

namespace Valvewright.Store.Tests;

/// <summary>A store in a database, and what is so only there.</summary>
public sealed class SiteStoreInPostgresTests : SiteStoreTests
{
    private readonly PostgresShelf shelf;

    public SiteStoreInPostgresTests()
        : this(new PostgresShelf())
    {
    }

    private SiteStoreInPostgresTests(PostgresShelf shelf)
        : base(shelf) => this.shelf = shelf;

    [Fact]
    public async Task Programs_that_write_at_once_number_their_changes_in_the_order_in_which_they_count()
    {
        using SiteStore one = shelf.Open(), other = shelf.Open();
        Guid site = Shelf.Site(one);
        Task writing = Task.Run(() => Parallel.For(0, 4, new ParallelOptions { MaxDegreeOfParallelism = 4 }, w =>
        {
            for (int i = 0; i < 20; i++)
            {
                Assert.Equal(Outcome.Made,
                    (w % 2 == 0 ? one : other).Put(site, Ids.New(), Shelf.Visit($"{w}/{i}"), null, Shelf.Ana).Outcome);
            }
        }));

        // None comes in between later: whoever has seen a change has seen all of smaller numbers.
        long[] seen = [];
        while (seen.Length < 81 && !writing.IsFaulted)
        {
            long[] now = [.. one.History(site, int.MaxValue).Select(h => h.Number).Order()];
            Assert.Equal(seen, now.Take(seen.Length));
            seen = now;
        }

        await writing;
        Assert.Equal(81, seen.Distinct().Count());
        Assert.True(shelf.Check().IsWhole);
    }

    [Fact]
    public void Of_two_programs_that_change_one_version_the_second_is_told()
    {
        using SiteStore one = shelf.Open(), other = shelf.Open();
        Guid site = Shelf.Site(one);
        Outcome[] outcomes = new Outcome[2];
        Parallel.For(0, 2, w => outcomes[w] = (w == 0 ? one : other).PutSite(
            site, new SiteValue("Heron Bank", $"site: Heron Bank\n# {w}\n", "d1"), 1, Shelf.Ana).Outcome);
        Assert.Equal([Outcome.Changed, Outcome.Conflict], outcomes.Order());
    }

    [Fact]
    public void A_change_counts_when_it_has_reached_the_disk_whatever_the_database_is_set_to()
    {
        using SiteStore store = shelf.Open();
        shelf.Meddle($"ALTER DATABASE {shelf.Place.Split('/', '?')[3]} SET synchronous_commit = off");
        using SiteStore again = shelf.Open();
        again.Sites();
        using StoreContext context = again.Context();
        context.Database.OpenConnection();
        Assert.Equal("on", context.Database.GetDbConnection().Scalar("SHOW synchronous_commit"));
    }

    [Fact]
    public void The_history_cannot_be_emptied()
    {
        using SiteStore store = shelf.Open();
        Assert.Throws<PostgresException>(() => shelf.Meddle("TRUNCATE \"History\""));
    }

    [Fact]
    public void Other_databases_are_refused_and_what_else_is_in_a_database_stays()
    {
        shelf.Meddle("CREATE SCHEMA valvewright");
        shelf.Meddle("CREATE TABLE things (name text)");
        Assert.Contains("not a store", Assert.Throws<StoreException>(shelf.Open).Message, StringComparison.Ordinal);
        using SiteStore beside = SiteStore.Open(shelf.Place + "&schema=sites");
        Shelf.Site(beside);
        Assert.True(Intact.Check(shelf.Place + "&schema=sites").IsWhole);
        string latin = PostgresCluster.Shared.Database("latin", "TEMPLATE template0 ENCODING 'LATIN1' LOCALE 'C'");
        Assert.Contains("UTF-8", Assert.Throws<StoreException>(() => SiteStore.Open(latin)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Programs_that_start_at_once_make_the_tables_once() => Parallel.For(0, 4, _ =>
    {
        using SiteStore store = shelf.Open();
        Shelf.Site(store);
    });

    [Fact]
    public void A_database_that_is_not_there_is_told_in_a_sentence()
    {
        string missing = shelf.Place.Replace("/sites", "/nothing", StringComparison.Ordinal);
        Assert.Contains("does not exist", Assert.Throws<StoreException>(() => SiteStore.Open(missing)).Message, StringComparison.Ordinal);
        Assert.Contains("can't be reached", Assert.Throws<StoreException>(
            () => SiteStore.Open("postgresql://ana:secret@/sites?host=/nowhere")).Message, StringComparison.Ordinal);
        Assert.Contains("no store in this database",
            Assert.Throws<StoreException>(() => Intact.Check(shelf.Place)).Message, StringComparison.Ordinal);
    }
}
