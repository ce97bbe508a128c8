using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.EntityFrameworkCore.Storage;
using Valvewright.Engine.Values;
using Valvewright.Store.Files;
using Valvewright.Records;
using Valvewright.Store.Rows;

namespace Valvewright.Store;

/// <summary>
/// Sites, plans, readings and visits in one file or database. Every change is an entry of a history that only grows; records and
/// history are written in one transaction, so that neither is ever without the other (docs/store.md).
/// </summary>
/// <remarks>
/// Calls may come from any thread. Those that write take turns: a store has one writer at a time, and taking turns here is fairer and
/// quicker than to be refused there. Calls do not return before what they have written is on the disk.
/// </remarks>
public sealed partial class SiteStore : IDisposable
{
    /// <summary>Most bytes that can be kept in one piece: a weather file, a photo.</summary>
    public const int LargestBlobBytes = 25_000_000;

    private readonly Lock turn = new();
    private readonly StorePlace place;
    private readonly IDisposable? held;

    private SiteStore(StorePlace place, IDisposable? held) => (this.place, this.held) = (place, held);

    /// <summary>Opens a store; makes it where there is none, and brings an older one up to date.</summary>
    /// <param name="store">A file, or a PostgreSQL database: see <see cref="StorePlace.Of"/>.</param>
    /// <exception cref="StoreException">It is no store, is newer than this program, is open elsewhere, or can't be reached.</exception>
    public static SiteStore Open(string store) => Open(StorePlace.Of(store));

    internal static SiteStore Open(StorePlace place)
    {
        IDisposable? held = place.Hold();
        try
        {
            return place.Guarded(() =>
            {
                using StoreContext context = place.Context();
                place.BringUpToDate(context);
                return new SiteStore(place, held);
            });
        }
        catch
        {
            held?.Dispose();
            throw;
        }
    }

    /// <summary>Lets go of the file or the database.</summary>
    public void Dispose()
    {
        place.LetGo();
        held?.Dispose();
    }

    internal StoreContext Context() => place.Context();

    private T Write<T>(Func<StoreContext, T> work)
    {
        lock (turn)
        {
            using StoreContext context = Context();
            using IDbContextTransaction transaction = place.BeginWriting(context);
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
