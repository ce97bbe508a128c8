using Microsoft.Data.Sqlite;
using NodaTime;
using Valvewright.Store.Files;
using Valvewright.Records;

namespace Valvewright.Store.Tests;

/// <summary>A folder with a store in it, gone afterwards.</summary>
internal sealed class Shelf : IDisposable
{
    public static Stamp Ana { get; } = new("Ana", Instant.FromUtc(2026, 4, 1, 7, 30));

    public static Stamp Ben { get; } = new("Ben", Instant.FromUtc(2026, 4, 2, 18, 0));

    public string Folder { get; } = Directory.CreateTempSubdirectory("valvewright-store-").FullName;

    public string File => this["sites.db"];

    public string this[string name] => Path.Combine(Folder, name);

    public SiteStore Open() => SiteStore.Open(File);

    /// <summary>Makes a site of that name.</summary>
    public static Guid Site(SiteStore store, string name = "Heron Bank")
    {
        Guid site = Ids.New();
        Assert.Equal(Outcome.Made, store.PutSite(site, new SiteValue(name, $"site: {name}\n", "d1"), null, Ana).Outcome);
        return site;
    }

    public static VisitValue Visit(string notes = "") =>
        new("Gate", new LocalDateTime(2026, 4, 1, 9, 30), "A: starts 5:00", "A: starts 4:00", 8.7, [new CoilReading(1, 24.5)],
            1234.5, notes);

    /// <summary>Works on the file behind the store's back.</summary>
    public void Meddle(string sql)
    {
        using SqliteConnection connection = StoreConnection.Open(File, SqliteOpenMode.ReadWriteCreate);
        using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100
        command.CommandText = sql;
#pragma warning restore CA2100
        command.ExecuteNonQuery();
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
