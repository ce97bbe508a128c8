using System.Data.Common;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Store.Files;

/// <summary>Whether a store is whole, and what is not.</summary>
/// <param name="Sites">Sites that are not removed.</param>
/// <param name="Records">Records of all kinds that are not removed.</param>
/// <param name="Entries">Entries of the history.</param>
/// <param name="Faults">What is wrong; empty where it is whole.</param>
public sealed record Intact(long Sites, long Records, long Entries, ListOf<Sentence> Faults)
{
    private const int MostFaults = 50;

    /// <summary>Which column refers to which.</summary>
    private static readonly (string Table, string Column, string Other, string Key)[] References =
    [
        ("Records", "SiteId", "Records", "Id"), ("Records", "Blob", "Blobs", "Digest"), ("History", "RecordId", "Records", "Id"),
        ("History", "SiteId", "Records", "Id"), ("History", "UndoOf", "History", "Number"),
    ];

    /// <summary>Whether nothing is wrong.</summary>
    public bool IsWhole => Faults.Count == 0;

    /// <summary>
    /// Looks through a store: a file by SQLite's own check of every page and index, then each by the rules of the store: no row refers to
    /// one that is not there, each record says what the last entry of its history says, history has every version of a record, and no
    /// bytes are missing or changed.
    /// </summary>
    /// <param name="store">The file or database.</param>
    /// <exception cref="StoreException">Not found, can't be reached, or it is no store.</exception>
    public static Intact Check(string store)
    {
        StorePlace place = StorePlace.Of(store);
        place.Require();
        return place.Check();
    }

    /// <summary>Holds what a connection sees against the rules.</summary>
    /// <param name="connection">An open one.</param>
    /// <param name="found">Faults that were found before.</param>
    internal static Intact Of(DbConnection connection, IEnumerable<Sentence> found)
    {
        List<Sentence> faults = [.. found];
        foreach ((string table, string column, string other, string key) in References)
        {
            faults.AddRange(connection.Column($"""
                SELECT "{column}" FROM "{table}" t WHERE "{column}" IS NOT NULL
                AND NOT EXISTS (SELECT 1 FROM "{other}" o WHERE o."{key}" = t."{column}")
                """).Select(_ => Dangling(table)));
        }

        faults.AddRange(connection.Column("""
            SELECT r."Id" FROM "Records" r LEFT JOIN "History" h ON h."RecordId" = r."Id" AND h."Version" = r."Version"
            WHERE h."Number" IS NULL OR h."Value" IS DISTINCT FROM r."Value" OR h."SiteId" <> r."SiteId" OR h."Kind" <> r."Kind"
            """).Select(Changed));
        faults.AddRange(connection.Column("""
            SELECT r."Id" FROM "Records" r WHERE (SELECT count(*) FROM "History" h WHERE h."RecordId" = r."Id") <> r."Version"
            """).Select(Miscounted));
        faults.AddRange(connection.Column("""
            SELECT "Id" FROM "Records" WHERE ("Kind" IN ('Weather', 'Photo')) <> ("Blob" IS NOT NULL)
            """).Select(Bare));
        faults.AddRange(ChangedBytes(connection));
        long Count(string of) => (long)connection.Scalar($"SELECT count(*) FROM {of}")!;
        return new Intact(
            Count("\"Records\" WHERE \"Kind\" = 'Site' AND \"Value\" IS NOT NULL"), Count("\"Records\" WHERE \"Value\" IS NOT NULL"),
                Count("\"History\""), faults.Take(MostFaults).ToListOf());
    }

    private static Sentence Dangling(string table) => (Sentence)$"A row of {table} refers to one that is missing.";

    private static Sentence Changed(string id) => (Sentence)$"Record {id} differs from its history.";

    private static Sentence Miscounted(string id) => (Sentence)$"The history of record {id} lacks a version, or has one too many.";

    private static Sentence Bare(string id) => (Sentence)$"Record {id} lacks its bytes.";

    private static Sentence Spoiled(string digest) => (Sentence)$"The bytes {digest} have changed.";

    private static List<Sentence> ChangedBytes(DbConnection connection)
    {
        using DbCommand command = connection.Command("SELECT \"Digest\", \"Bytes\" FROM \"Blobs\"");
        using DbDataReader reader = command.ExecuteReader();
        List<Sentence> faults = [];
        while (reader.Read())
        {
            string digest = reader.GetString(0);
            if (SiteStore.DigestOf(reader.GetFieldValue<byte[]>(1)) != digest)
            {
                faults.Add(Spoiled(digest));
            }
        }

        return faults;
    }
}
