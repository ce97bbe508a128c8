using System.Globalization;
using Microsoft.Data.Sqlite;
using NodaTime;

namespace Valvewright.Store.Files;

/// <summary>Copies a store while it is in use, and puts a copy back.</summary>
public static class Backups
{
    /// <summary>Copies a store as it stands at one moment; a server may go on writing meanwhile.</summary>
    /// <param name="store">The store: a file or a database.</param>
    /// <param name="copy">Where the copy goes; it must not be there yet.</param>
    /// <returns>What the copy holds, looked through.</returns>
    /// <exception cref="StoreException">It can't be done; nothing is left behind.</exception>
    public static Intact Make(string store, string copy)
    {
        if (StorePlace.Of(copy) is not FilePlace)
        {
            throw new StoreException($"A backup is a file. To fill a database: valvewright move --from STORE --to {PostgresAddress.Form}");
        }

        if (File.Exists(copy) || Directory.Exists(copy))
        {
            throw new StoreException($"{copy}: there is something of this name already.");
        }

        StorePlace place = StorePlace.Of(store);
        place.Require();
        return place.Guarded(() =>
        {
            string aside = copy + ".part";
            Intact whole = CopyWhole(place, aside);
            File.Move(aside, copy);
            return whole;
        });
    }

    /// <summary>Puts a copy in a store's place. What was there before is kept beside it.</summary>
    /// <param name="copy">The copy.</param>
    /// <param name="store">The store's file; no server may have it open.</param>
    /// <param name="now">For the name of what is kept.</param>
    /// <returns>What the store holds now, and where the former one is; null where there was none.</returns>
    /// <exception cref="StoreException">The copy is not whole, or it can't be done; the store is as it was.</exception>
    public static (Intact Whole, string? Former) PutBack(string copy, string store, Instant now)
    {
        StorePlace place = StorePlace.Of(copy);
        if (place is not FilePlace || StorePlace.Of(store) is not FilePlace)
        {
            throw new StoreException(
                $"Restore puts one file in another's place. To fill a database: valvewright move --from STORE --to {PostgresAddress.Form}");
        }

        place.Require();
        using StoreLock held = StoreLock.Take(store);
        return place.Guarded(() =>
        {
            string aside = store + ".part";
            Intact whole = CopyWhole(place, aside);
            string? former = SetAside(store, now);
            File.Move(aside, store, overwrite: true);
            return (whole, former);
        });
    }

    /// <summary>Copies through SQLite, looks the copy through, and sees it onto the disk.</summary>
    private static Intact CopyWhole(StorePlace from, string aside)
    {
        Delete(aside);
        try
        {
            Intact whole = from is FilePlace file ? CopyFile(file, aside) : CopyDatabase(from, aside);
            if (!whole.IsWhole)
            {
                throw new StoreException($"{from.Shown}: it is not whole: {string.Join(" ", whole.Faults)}");
            }

            File.Delete(aside + ".lock");
            using FileStream stream = new(aside, FileMode.Open, FileAccess.ReadWrite);
            stream.Flush(flushToDisk: true);
            return whole;
        }
        catch
        {
            Delete(aside);
            throw;
        }
    }

    private static Intact CopyDatabase(StorePlace from, string aside)
    {
        Intact whole = StoreMoves.Copy(from, new FilePlace(aside));
        using SqliteConnection target = StoreConnection.Open(aside, SqliteOpenMode.ReadWrite);
        target.Scalar("PRAGMA journal_mode=DELETE");
        return whole;
    }

    private static Intact CopyFile(FilePlace from, string aside)
    {
        using SqliteConnection source = StoreConnection.Open(from.File, SqliteOpenMode.ReadWrite);
        using SqliteConnection target = StoreConnection.Open(aside, SqliteOpenMode.ReadWriteCreate);
        source.BackupDatabase(target);
        target.Scalar("PRAGMA journal_mode=DELETE");
        return from.Check(target);
    }

    /// <summary>
    /// Keeps the former file, and its log of changes if it was not closed well, under another name. The log must be gone before the new
    /// file comes: it would be taken for the new file's.
    /// </summary>
    private static string? SetAside(string store, Instant now)
    {
        if (!File.Exists(store))
        {
            return null;
        }

        string former = $"{store}.before-{now.ToString("uuuuMMdd'T'HHmmss", CultureInfo.InvariantCulture)}";
        File.Copy(store, former);
        if (File.Exists(store + "-wal"))
        {
            File.Move(store + "-wal", former + "-wal");
        }

        File.Delete(store + "-shm");
        return former;
    }

    private static void Delete(string aside)
    {
        foreach (string file in new[] { aside, aside + "-journal", aside + "-wal", aside + "-shm" })
        {
            File.Delete(file);
        }
    }
}
