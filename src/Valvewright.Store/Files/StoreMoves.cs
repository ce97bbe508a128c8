using System.Data;
using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Valvewright.Engine.Values;
using Valvewright.Records;
using Valvewright.Store.Rows;

namespace Valvewright.Store.Files;

/// <summary>Takes everything from one store to another, in a file or a database.</summary>
public static class StoreMoves
{
    private const int RowsAtOnce = 500;

    /// <summary>Fills an empty store with all that is in another; the other stays as it is.</summary>
    /// <param name="from">The store that is full. No server may have it open.</param>
    /// <param name="to">The store that is empty, or is not there yet.</param>
    /// <returns>What the new store holds, looked through.</returns>
    /// <exception cref="StoreException">It can't be done; nothing was written.</exception>
    public static Intact Make(string from, string to)
    {
        StorePlace source = StorePlace.Of(from), target = StorePlace.Of(to);
        if (source.IsSame(target))
        {
            throw new StoreException($"{source.Shown}: a store can't be moved to itself.");
        }

        source.Require();
        using SiteStore opened = SiteStore.Open(source);
        source.RequireAlone();
        return Copy(source, target);
    }

    /// <summary>Copies a store as it is at one moment. All of it or nothing.</summary>
    internal static Intact Copy(StorePlace source, StorePlace target)
    {
        bool isNew = target is FilePlace && !target.Exists();
        try
        {
            using SiteStore opened = SiteStore.Open(target);
            target.RequireAlone();
            return source.Guarded(() => target.Guarded(() =>
            {
                using StoreContext reading = source.Context(), writing = target.Context();
                reading.Database.SetCommandTimeout(0);
                writing.Database.SetCommandTimeout(0);
                using IDbContextTransaction moment = reading.Database.BeginTransaction(IsolationLevel.RepeatableRead);
                using IDbContextTransaction transaction = target.BeginWriting(writing);
                RequireEmpty(writing, target);
                Intact whole = CopyRows(reading, writing, target);
                transaction.Commit();
                return whole;
            }));
        }
        catch when (isNew)
        {
            foreach (string end in new[] { "", "-wal", "-shm", ".lock" })
            {
                File.Delete(((FilePlace)target).File + end);
            }

            throw;
        }
    }

    private static void RequireEmpty(StoreContext context, StorePlace target)
    {
        long sites = context.Records.LongCount(r => r.Kind == RecordKind.Site), entries = context.History.LongCount();
        if (sites > 0 || entries > 0 || context.Blobs.Any())
        {
            throw new StoreException(
                $"{target.Shown}: this store is not empty: {sites} sites, {entries} changes. Name an empty database or a new file.");
        }
    }

    private static Intact CopyRows(StoreContext from, StoreContext to, StorePlace target)
    {
        to.ChangeTracker.AutoDetectChangesEnabled = false;
        // One at a time: a picture may be large. Sites before what belongs to them, entries before what takes them back.
        bool same = Add(from.Blobs, to, 1) & Add(from.Records.OrderBy(r => r.Id != r.SiteId), to, RowsAtOnce)
            & Add(from.History.OrderBy(h => h.Number), to, RowsAtOnce) & Add(from.Jobs, to, RowsAtOnce)
            & Add(from.Advice, to, RowsAtOnce) & Add(from.Feeds, to, RowsAtOnce);
        target.CountOn(to);
        Intact whole = Intact.Of(to.Database.GetDbConnection(), []);
        return !same ? throw new StoreException($"{target.Shown}: it does not hold what was written to it.")
            : whole.IsWhole ? whole : throw new StoreException($"The store is not whole: {string.Join(" ", whole.Faults)}");
    }

    /// <summary>Copies the rows of a table, and reads them back.</summary>
    /// <returns>Whether they are as many and the same.</returns>
    private static bool Add<TRow>(IQueryable<TRow> rows, StoreContext to, int atOnce)
        where TRow : class
    {
        (long Count, byte[] Sum) read = Sum(rows.AsNoTracking().AsEnumerable().Chunk(atOnce).SelectMany(some =>
        {
            to.AddRange(some);
            to.SaveChanges();
            to.ChangeTracker.Clear();
            return some;
        })), written = Sum(to.Set<TRow>().AsNoTracking());
        return read.Count == written.Count && read.Sum.SequenceEqual(written.Sum);
    }

    /// <summary>How many rows there are, and the sum of their digests, whatever the order.</summary>
    private static (long Count, byte[] Sum) Sum<TRow>(IEnumerable<TRow> rows)
    {
        byte[] sum = new byte[SHA256.HashSizeInBytes];
        long count = 0;
        foreach (TRow row in rows)
        {
            byte[] digest = SHA256.HashData(JsonSerializer.SerializeToUtf8Bytes(row, Json.Compact));
            for (int i = 0; i < sum.Length; i++)
            {
                sum[i] ^= digest[i];
            }

            count++;
        }

        return (count, sum);
    }
}
