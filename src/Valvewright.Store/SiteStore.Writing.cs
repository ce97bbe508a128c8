using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Valvewright.Records;
using Valvewright.Store.Rows;

namespace Valvewright.Store;

public sealed partial class SiteStore
{
    /// <summary>Makes a site or changes its survey.</summary>
    public Answer<SiteValue> PutSite(Guid site, SiteValue value, long? expected, Stamp stamp) => Put(site, site, value, expected, stamp);

    /// <summary>Makes a record or changes it.</summary>
    /// <param name="site">The site that it belongs to.</param>
    /// <param name="id">Its id.</param>
    /// <param name="value">What it shall say.</param>
    /// <param name="expected">The version that the change rests on; null where the record is thought to be new.</param>
    /// <param name="stamp">Who and when.</param>
    /// <param name="bytes">The bytes that the value speaks of, where it speaks of any.</param>
    public Answer<T> Put<T>(Guid site, Guid id, T value, long? expected, Stamp stamp, byte[]? bytes = null)
        where T : class
    {
        ArgumentNullException.ThrowIfNull(value);
        ArgumentNullException.ThrowIfNull(stamp);
        return Write(context => Put(context, new Change(site, id, RecordKinds.Of<T>(), value, expected, stamp, bytes)).Typed<T>());
    }

    /// <summary>Several changes, all of them or none: where one is neither made, changed nor the same already, nothing is
    /// written.</summary>
    /// <param name="changes">The changes, in their order.</param>
    /// <param name="leaveOthers">Records that are there already and say something else are left as they are, and do not stand in the
    /// way.</param>
    /// <returns>What came of each, up to the first that could not be.</returns>
    public IReadOnlyList<Outcome> PutAll(IEnumerable<Change> changes, bool leaveOthers = false)
    {
        ArgumentNullException.ThrowIfNull(changes);
        lock (turn)
        {
            using StoreContext context = Context();
            using IDbContextTransaction transaction = place.BeginWriting(context);
            List<Outcome> outcomes = [];
            foreach (Change change in changes)
            {
                outcomes.Add(Put(context, change).Outcome);
                if (outcomes[^1] is not (Outcome.Made or Outcome.Changed or Outcome.Same)
                    && !(leaveOthers && outcomes[^1] is Outcome.NeedsVersion))
                {
                    return outcomes;
                }

                context.SaveChanges();
            }

            transaction.Commit();
            return outcomes;
        }
    }

    /// <summary>Removes a record; its history stays and the removal can be undone.</summary>
    public Answer<T> Remove<T>(Guid site, Guid id, long expected, Stamp stamp)
        where T : class
    {
        ArgumentNullException.ThrowIfNull(stamp);
        RecordKind kind = RecordKinds.Of<T>();
        return Write(context =>
        {
            RecordRow? row = context.Records.SingleOrDefault(r => r.Id == id && r.SiteId == site && r.Kind == kind && r.Value != null);
            if (row is null || !SiteStands(context, site))
            {
                return new Answer<T>(Outcome.Missing, null);
            }

            if (row.Version != expected)
            {
                return new Answer<T>(Outcome.Conflict, KeptOf<T>(row));
            }

            Set(context, row, null, row.Blob, stamp, null);
            return new Answer<T>(Outcome.Changed, null);
        });
    }

    /// <summary>
    /// Takes a change back, as a new entry. Possible while the record still says what that change made it say; otherwise the later
    /// change would be lost with it.
    /// </summary>
    /// <returns>
    /// <see cref="Outcome.Changed"/>, <see cref="Outcome.Missing"/> where the site has no such entry, or <see cref="Outcome.Conflict"/>.
    /// </returns>
    public Outcome Undo(Guid site, long number, Stamp stamp)
    {
        ArgumentNullException.ThrowIfNull(stamp);
        return Write(context =>
        {
            HistoryRow? entry = context.History.AsNoTracking().SingleOrDefault(h => h.Number == number && h.SiteId == site);
            if (entry is null)
            {
                return Outcome.Missing;
            }

            RecordRow row = context.Records.Single(r => r.Id == entry.RecordId);
            if (row.Value != entry.Value || (row.Kind != RecordKind.Site && !SiteStands(context, site)))
            {
                return Outcome.Conflict;
            }

            string? before = context.History.AsNoTracking().Where(h => h.RecordId == row.Id && h.Version == entry.Version - 1)
                .Select(h => h.Value).SingleOrDefault();
            string? blob = before is null ? row.Blob
                : BlobOf(System.Text.Json.JsonSerializer.Deserialize(before, RecordKinds.TypeOf(row.Kind), Engine.Values.Json.Compact));
            Set(context, row, before, blob, stamp, number);
            return Outcome.Changed;
        });
    }

    private static Attempt Put(StoreContext context, Change change)
    {
        string json = JsonOf(change.Kind, change.Value);
        RecordRow? row = context.Records.SingleOrDefault(r => r.Id == change.Id);
        if (row is not null && (row.SiteId != change.Site || row.Kind != change.Kind))
        {
            return new Attempt(Outcome.Taken, null);
        }

        if (change.Kind != RecordKind.Site && !SiteStands(context, change.Site))
        {
            return new Attempt(Outcome.Missing, null);
        }

        if (row is not null && row.Value == json)
        {
            return new Attempt(Outcome.Same, row);
        }

        if (Refusal(row, change.Expected) is { } refused)
        {
            return new Attempt(refused, row);
        }

        KeepBytes(context, change);
        bool made = row is null;
        if (row is null)
        {
            row = new RecordRow { Id = change.Id, SiteId = change.Site, Kind = change.Kind };
            context.Records.Add(row);
        }

        Set(context, row, json, BlobOf(change.Value), change.Stamp, null);
        return new Attempt(made ? Outcome.Made : Outcome.Changed, row);
    }

    private static Outcome? Refusal(RecordRow? row, long? expected) => (row, expected) switch
    {
        (null, null) => null,
        (null, _) => Outcome.Missing,
        (_, null) => Outcome.NeedsVersion,
        ({ } there, { } version) => there.Version == version ? null : Outcome.Conflict,
    };

    private static bool SiteStands(StoreContext context, Guid site) =>
        context.Records.Any(r => r.Id == site && r.Kind == RecordKind.Site && r.Value != null);

    private static void KeepBytes(StoreContext context, Change change)
    {
        if (BlobOf(change.Value) is not { } digest)
        {
            return;
        }

        if (change.Bytes is { } bytes)
        {
            if (bytes.Length > LargestBlobBytes || DigestOf(bytes) != digest)
            {
                throw new ArgumentException("The bytes are too many or are not those that the value speaks of.", nameof(change));
            }

            if (context.Blobs.Find(digest) is null)
            {
                context.Blobs.Add(new BlobRow { Digest = digest, Bytes = bytes });
            }
        }
    }

    private static void Set(StoreContext context, RecordRow row, string? value, string? blob, Stamp stamp, long? undoOf)
    {
        row.Version++;
        row.Value = value;
        row.Blob = blob;
        row.At = stamp.At;
        row.By = stamp.By;
        context.History.Add(new HistoryRow
        {
            SiteId = row.SiteId, Kind = row.Kind, RecordId = row.Id, Version = row.Version, At = stamp.At, By = stamp.By, Value = value,
                UndoOf = undoOf,
        });
    }

    private sealed record Attempt(Outcome Outcome, RecordRow? Row)
    {
        public Answer<T> Typed<T>()
            where T : class => new(Outcome, Row?.Value is null ? null : KeptOf<T>(Row));
    }
}

/// <summary>A change to be made to a record.</summary>
/// <param name="Site">The site that it belongs to.</param>
/// <param name="Id">Its id.</param>
/// <param name="Kind">What it is of.</param>
/// <param name="Value">What it shall say; of the type that goes with the kind.</param>
/// <param name="Expected">The version that the change rests on; null where the record is thought to be new.</param>
/// <param name="Stamp">Who and when.</param>
/// <param name="Bytes">The bytes that the value speaks of, where it speaks of any.</param>
public sealed record Change(Guid Site, Guid Id, RecordKind Kind, object Value, long? Expected, Stamp Stamp, byte[]? Bytes = null);
