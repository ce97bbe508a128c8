using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Valvewright.Engine.Values;
using Valvewright.Store.Files;
using Valvewright.Records;
using Valvewright.Store.Rows;

namespace Valvewright.Store;

/// <summary>
/// Sites, plans, readings and visits in one file. Every change is an entry of a history that only grows; records and history are
/// written in one transaction, so that neither is ever without the other (docs/store.md).
/// </summary>
/// <remarks>
/// Calls may come from any thread. Those that write take turns: SQLite has one writer, and taking turns here is fairer and quicker
/// than to be refused there. Calls do not return before what they have written is on the disk.
/// </remarks>
public sealed partial class SiteStore : IDisposable
{
    /// <summary>Most bytes that can be kept in one piece: a weather file, a photo.</summary>
    public const int LargestBlobBytes = 25_000_000;

    private readonly Lock turn = new();
    private readonly StoreLock held;
    private readonly DbContextOptions<StoreContext> options;

    private SiteStore(string file, StoreLock held)
    {
        File = file;
        this.held = held;
        options = new DbContextOptionsBuilder<StoreContext>()
            .UseSqlite(StoreConnection.For(file, pooled: true))
            .AddInterceptors(new StoreConnection.Settings())
            .Options;
    }

    /// <summary>The database file.</summary>
    public string File { get; }

    /// <summary>Opens a store; makes it where there is none, and brings an older one up to date.</summary>
    /// <exception cref="StoreException">It is no store, is newer than this program, or is open elsewhere.</exception>
    public static SiteStore Open(string file)
    {
        ArgumentException.ThrowIfNullOrEmpty(file);
        StoreLock held = StoreLock.Take(file);
        try
        {
            SiteStore store = new(Path.GetFullPath(file), held);
            store.BringUpToDate();
            return store;
        }
        catch (SqliteException reason)
        {
            held.Dispose();
            throw new StoreException($"{file}: not a store, or damaged ({reason.Message}).", reason);
        }
        catch
        {
            held.Dispose();
            throw;
        }
    }

    /// <summary>Lets go of the file.</summary>
    public void Dispose()
    {
        using (StoreContext context = Context())
        {
            SqliteConnection.ClearPool((SqliteConnection)context.Database.GetDbConnection());
        }

        held.Dispose();
    }

    internal StoreContext Context() => new(options);

    private void BringUpToDate()
    {
        using StoreContext context = Context();
        SqliteConnection connection = (SqliteConnection)context.Database.GetDbConnection();
        context.Database.OpenConnection();
        bool isNew = StoreFile.IsEmpty(connection);
        if (!isNew)
        {
            StoreFile.Recognize(connection, File);
        }

        connection.Scalar("PRAGMA journal_mode=WAL");
        if (isNew || context.Database.GetPendingMigrations().Any())
        {
            // A program that was killed while it migrated leaves its mark behind and would keep every later one waiting. The lock file says
            // no one else is here.
            connection.Scalar("DROP TABLE IF EXISTS __EFMigrationsLock");
            connection.Scalar($"PRAGMA application_id={StoreConnection.ApplicationId}");
            context.Database.Migrate();
        }
    }

    private T Write<T>(Func<StoreContext, T> work)
    {
        lock (turn)
        {
            using StoreContext context = Context();
            using var transaction = context.Database.BeginTransaction();
            T result = work(context);
            context.SaveChanges();
            transaction.Commit();
            return result;
        }
    }

    private static string JsonOf(RecordKind kind, object value) => JsonSerializer.Serialize(value, RecordKinds.TypeOf(kind), Json.Compact);

    private static T ValueOf<T>(string json) => JsonSerializer.Deserialize<T>(json, Json.Compact)!;

    private static Kept<T> KeptOf<T>(RecordRow row)
        where T : class => new(row.SiteId, row.Id, row.Version, ValueOf<T>(row.Value!), new Stamp(row.By, row.At));

    private static string? BlobOf(object? value) => value switch
    {
        WeatherValue weather => weather.Blob,
        PhotoValue photo => photo.Blob,
        _ => null,
    };

    /// <summary>Name of bytes: their SHA-256 in hexadecimal digits.</summary>
    public static string DigestOf(ReadOnlySpan<byte> bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));
}
