using Microsoft.Data.Sqlite;
using NodaTime;
using Npgsql;
using Valvewright.Store.Files;
using Valvewright.Records;
using Valvewright.Tests.Databases;

namespace Valvewright.Store.Tests;

/// <summary>A place with a store in it, gone afterwards.</summary>
public abstract class Shelf : IDisposable
{
    internal static Stamp Ana { get; } = new("Ana", Instant.FromUtc(2026, 4, 1, 7, 30));

    internal static Stamp Ben { get; } = new("Ben", Instant.FromUtc(2026, 4, 2, 18, 0));

    /// <summary>A folder for files.</summary>
    public string Folder { get; } = Directory.CreateTempSubdirectory("valvewright-store-").FullName;

    /// <summary>Where the store is.</summary>
    public abstract string Place { get; }

    public string this[string name] => Path.Combine(Folder, name);

    public SiteStore Open() => SiteStore.Open(Place);

    internal Intact Check() => Intact.Check(Place);

    /// <summary>Works on the tables behind the store's back.</summary>
    internal abstract void Meddle(string sql);

    /// <summary>Makes a site of that name.</summary>
    internal static Guid Site(SiteStore store, string name = "Heron Bank")
    {
        Guid site = Ids.New();
        Assert.Equal(Outcome.Made, store.PutSite(site, new SiteValue(name, $"site: {name}\n", "d1"), null, Ana).Outcome);
        return site;
    }

    internal static VisitValue Visit(string notes = "") =>
        new("Gate", new LocalDateTime(2026, 4, 1, 9, 30), "A: starts 5:00", "A: starts 4:00", 8.7, [new CoilReading(1, 24.5)],
            1234.5, notes);

    public void Dispose()
    {
        Directory.Delete(Folder, recursive: true);
        GC.SuppressFinalize(this);
    }
}

/// <summary>A store in a file.</summary>
public sealed class FileShelf : Shelf
{
    public override string Place => this["sites.db"];

    internal override void Meddle(string sql)
    {
        using SqliteConnection connection = StoreConnection.Open(Place, SqliteOpenMode.ReadWriteCreate);
        connection.Scalar(sql);
    }
}

/// <summary>A store in a PostgreSQL database of its own.</summary>
public sealed class PostgresShelf : Shelf
{
    public override string Place { get; } = PostgresCluster.Shared.Database();

    internal override void Meddle(string sql)
    {
        using NpgsqlConnection connection = PostgresCluster.Shared.Open(Place.Split('/', '?')[3]);
        connection.Scalar(sql);
    }
}
