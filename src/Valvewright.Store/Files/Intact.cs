using Microsoft.Data.Sqlite;
using Valvewright.Engine.Values;

namespace Valvewright.Store.Files;

/// <summary>Whether a store is whole, and what is not.</summary>
/// <param name="Sites">Sites that are not removed.</param>
/// <param name="Records">Records of all kinds that are not removed.</param>
/// <param name="Entries">Entries of the history.</param>
/// <param name="Faults">What is wrong; empty where it is whole.</param>
public sealed record Intact(long Sites, long Records, long Entries, ListOf<string> Faults)
{
    private const int MostFaults = 50;

    /// <summary>Whether nothing is wrong.</summary>
    public bool IsWhole => Faults.Count == 0;

    /// <summary>
    /// Looks through a file: SQLite's own check of every page and index, foreign keys, and the rules of the store: each record says what
    /// the last entry of its history says, history has every version of a record, and no bytes are missing or changed.
    /// </summary>
    /// <exception cref="StoreException">File not found, or it is no store.</exception>
    public static Intact Check(string file)
    {
        if (!File.Exists(file))
        {
            throw new StoreException($"{file}: file not found.");
        }

        try
        {
            using SqliteConnection connection = StoreConnection.Open(file, SqliteOpenMode.ReadWrite);
            return Check(connection, file);
        }
        catch (SqliteException reason)
        {
            throw new StoreException($"{file}: not a store, or damaged ({reason.Message}).", reason);
        }
    }

    internal static Intact Check(SqliteConnection connection, string file)
    {
        if (StoreFile.IsEmpty(connection))
        {
            throw new StoreException($"{file}: there is nothing in this file.");
        }

        StoreFile.Recognize(connection, file);
        List<string> faults = [.. connection.Column("PRAGMA integrity_check").Where(f => f != "ok")];
        faults.AddRange(connection.Column("PRAGMA foreign_key_check").Select(t => $"A row of {t} refers to one that is not there."));
        faults.AddRange(connection.Column("""
            SELECT r.Id FROM Records r LEFT JOIN History h ON h.RecordId = r.Id AND h.Version = r.Version
            WHERE h.Number IS NULL OR h.Value IS NOT r.Value OR h.SiteId <> r.SiteId OR h.Kind <> r.Kind
            """).Select(id => $"Record {id} does not say what its history says."));
        faults.AddRange(connection.Column("""
            SELECT r.Id FROM Records r WHERE (SELECT count(*) FROM History h WHERE h.RecordId = r.Id) <> r.Version
            """).Select(id => $"The history of record {id} has not one entry for each version."));
        faults.AddRange(connection.Column("SELECT Id FROM Records WHERE (Kind IN ('Weather', 'Photo')) <> (Blob IS NOT NULL)")
            .Select(id => $"Record {id} lacks its bytes."));
        faults.AddRange(ChangedBytes(connection));
        long Count(string of) => (long)connection.Scalar($"SELECT count(*) FROM {of}")!;
        return new Intact(
            Count("Records WHERE Kind = 'Site' AND Value IS NOT NULL"), Count("Records WHERE Value IS NOT NULL"), Count("History"),
                faults.Take(MostFaults).ToListOf());
    }

    private static List<string> ChangedBytes(SqliteConnection connection)
    {
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = "SELECT Digest, Bytes FROM Blobs";
        using SqliteDataReader reader = command.ExecuteReader();
        List<string> faults = [];
        while (reader.Read())
        {
            string digest = reader.GetString(0);
            if (SiteStore.DigestOf(reader.GetFieldValue<byte[]>(1)) != digest)
            {
                faults.Add($"The bytes {digest} have changed.");
            }
        }

        return faults;
    }
}
