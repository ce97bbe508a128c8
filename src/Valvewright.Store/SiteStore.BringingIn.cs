using Microsoft.EntityFrameworkCore;
using Valvewright.Records;
using Valvewright.Store.Rows;

namespace Valvewright.Store;

public sealed partial class SiteStore
{
    /// <summary>
    /// Brings records of a site in with all that was ever changed of them: who, when, what. Records that are there already are left as they
    /// are, with their own history. All of it or nothing.
    /// </summary>
    /// <param name="site">The site; its own record is the first of the entries.</param>
    /// <param name="entries">The history, oldest first; each record's versions count from 1.</param>
    /// <param name="bytes">Bytes that the values speak of, by their digests.</param>
    /// <param name="stamp">Who brings it in, and when: each entry is marked with it.</param>
    /// <returns>What came of each record; empty where an id belongs to another record here, or the site was removed here, and nothing was
    /// written.</returns>
    public IReadOnlyDictionary<Guid, Outcome> BringIn(
        Guid site, IReadOnlyList<PastEntry> entries, IReadOnlyDictionary<string, byte[]> bytes, Stamp stamp)
    {
        ArgumentNullException.ThrowIfNull(entries);
        ArgumentNullException.ThrowIfNull(bytes);
        ArgumentNullException.ThrowIfNull(stamp);
        return Write<IReadOnlyDictionary<Guid, Outcome>>(context =>
        {
            Dictionary<Guid, Outcome> outcomes = [];
            foreach (IGrouping<Guid, PastEntry> record in entries.GroupBy(e => e.Record))
            {
                Outcome outcome = Standing(context, site, record.Last());
                if (outcome is Outcome.Taken or Outcome.Missing)
                {
                    return new Dictionary<Guid, Outcome>();
                }

                outcomes.Add(record.Key, outcome);
            }

            if (outcomes.Count > 0 && outcomes.GetValueOrDefault(site, Outcome.Missing) is not Outcome.Made && !SiteStands(context, site))
            {
                return new Dictionary<Guid, Outcome>();
            }

            Replay(context, site, [.. entries.Where(e => outcomes[e.Record] is Outcome.Made)], bytes, stamp);
            context.SaveChanges();
            place.CountOn(context);
            return outcomes;
        });
    }

    /// <summary>How a record that is to be brought in stands here.</summary>
    private static Outcome Standing(StoreContext context, Guid site, PastEntry last)
    {
        RecordRow? row = context.Records.AsNoTracking().SingleOrDefault(r => r.Id == last.Record);
        return row is null ? Outcome.Made
            : row.SiteId != site || row.Kind != last.Kind ? Outcome.Taken
            : row.Value == (last.Value is null ? null : JsonOf(last.Kind, last.Value)) ? Outcome.Same
            : Outcome.NeedsVersion;
    }

    private static void Replay(
        StoreContext context, Guid site, List<PastEntry> entries, IReadOnlyDictionary<string, byte[]> bytes, Stamp stamp)
    {
        foreach (string digest in entries.Select(e => BlobOf(e.Value)).OfType<string>().Distinct()
            .Where(d => context.Blobs.Find(d) is null))
        {
            byte[] piece = bytes[digest];
            if (piece.Length > LargestBlobBytes || DigestOf(piece) != digest)
            {
                throw new ArgumentException("The bytes are too many or are not those that a value speaks of.", nameof(bytes));
            }

            context.Blobs.Add(new BlobRow { Digest = digest, Bytes = piece });
        }

        foreach (IGrouping<Guid, PastEntry> record in entries.GroupBy(e => e.Record))
        {
            PastEntry last = record.Last();
            context.Records.Add(new RecordRow
            {
                Id = last.Record, SiteId = site, Kind = last.Kind, Version = last.Version,
                    Value = last.Value is null ? null : JsonOf(last.Kind, last.Value),
                Blob = record.Select(e => BlobOf(e.Value)).LastOrDefault(b => b is not null), At = last.Changed.At, By = last.Changed.By,
            });
        }

        context.SaveChanges();
        long next = context.History.Max(h => (long?)h.Number) ?? 0;
        Dictionary<long, long> numbers = [];
        foreach (PastEntry entry in entries)
        {
            numbers.Add(entry.Number, ++next);
            context.History.Add(new HistoryRow
            {
                Number = next, SiteId = site, Kind = entry.Kind, RecordId = entry.Record, Version = entry.Version, At = entry.Changed.At,
                    By = entry.Changed.By,
                Value = entry.Value is null ? null : JsonOf(entry.Kind, entry.Value),
                    UndoOf = entry.UndoOf is { } undone ? numbers[undone] : null,
                BroughtInAt = stamp.At, BroughtInBy = stamp.By,
            });
        }
    }
}

/// <summary>An entry of a history that was made elsewhere.</summary>
/// <param name="Number">Rising within the history that it comes with; it gets another number here.</param>
/// <param name="Kind">What the record is of.</param>
/// <param name="Record">The record's id.</param>
/// <param name="Version">The version that the change led to; 1 at a record's first entry, one more at each later one.</param>
/// <param name="Changed">Who and when.</param>
/// <param name="Value">The value after; null where the record was removed.</param>
/// <param name="UndoOf">The earlier entry of the same record that this one takes back; null where it is no undoing.</param>
public sealed record PastEntry(long Number, RecordKind Kind, Guid Record, long Version, Stamp Changed, object? Value, long? UndoOf);
