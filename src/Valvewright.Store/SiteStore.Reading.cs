using Microsoft.EntityFrameworkCore;
using Valvewright.Engine.Values;
using Valvewright.Records;
using Valvewright.Store.Rows;

namespace Valvewright.Store;

public sealed partial class SiteStore
{
    /// <summary>All sites that are not removed, by name.</summary>
    public ListOf<Kept<SiteValue>> Sites()
    {
        using StoreContext context = Context();
        return context.Records.AsNoTracking().Where(r => r.Kind == RecordKind.Site && r.Value != null).AsEnumerable()
            .Select(KeptOf<SiteValue>).OrderBy(s => s.Value.Name, StringComparer.Ordinal).ThenBy(s => s.Id).ToListOf();
    }

    /// <summary>A record as it stands; null where there is none, or it is removed, or it is another site's.</summary>
    public Kept<T>? Find<T>(Guid site, Guid id)
        where T : class
    {
        RecordKind kind = RecordKinds.Of<T>();
        using StoreContext context = Context();
        RecordRow? row = context.Records.AsNoTracking().SingleOrDefault(
            r => r.Id == id && r.SiteId == site && r.Kind == kind && r.Value != null);
        return row is null ? null : KeptOf<T>(row);
    }

    /// <summary>A site.</summary>
    public Kept<SiteValue>? Site(Guid site) => Find<SiteValue>(site, site);

    /// <summary>A site's records of a kind, those made first first.</summary>
    public ListOf<Kept<T>> All<T>(Guid site)
        where T : class
    {
        RecordKind kind = RecordKinds.Of<T>();
        using StoreContext context = Context();
        return context.Records.AsNoTracking().Where(r => r.SiteId == site && r.Kind == kind && r.Value != null).AsEnumerable()
            .OrderBy(r => r.Id.ToString("D"), StringComparer.Ordinal).Select(KeptOf<T>).ToListOf();
    }

    /// <summary>Records of a kind at all sites that are not removed, those made first first.</summary>
    public ListOf<Kept<T>> Everywhere<T>()
        where T : class
    {
        RecordKind kind = RecordKinds.Of<T>();
        using StoreContext context = Context();
        return context.Records.AsNoTracking()
            .Where(r => r.Kind == kind && r.Value != null && context.Records.Any(s => s.Id == r.SiteId && s.Value != null)).AsEnumerable()
            .OrderBy(r => r.Id.ToString("D"), StringComparer.Ordinal).Select(KeptOf<T>).ToListOf();
    }

    /// <summary>The version of a record, also of a removed one; null where there never was one.</summary>
    public long? VersionOf(Guid record)
    {
        using StoreContext context = Context();
        return context.Records.AsNoTracking().Where(r => r.Id == record).Select(r => (long?)r.Version).SingleOrDefault();
    }

    /// <summary>Which records a site has, in which versions, by id; removed ones as well.</summary>
    public ListOf<(Guid Id, long Version)> Versions(Guid site)
    {
        using StoreContext context = Context();
        return context.Records.AsNoTracking().Where(r => r.SiteId == site).Select(r => new { r.Id, r.Version }).AsEnumerable()
            .OrderBy(r => r.Id).Select(r => (r.Id, r.Version)).ToListOf();
    }

    /// <summary>Bytes by their digest; null where there are none.</summary>
    public byte[]? Blob(string digest)
    {
        using StoreContext context = Context();
        return context.Blobs.AsNoTracking().Where(b => b.Digest == digest).Select(b => b.Bytes).SingleOrDefault();
    }

    /// <summary>What was changed at a site, the latest first.</summary>
    /// <param name="site">The site.</param>
    /// <param name="most">How many entries at most.</param>
    /// <param name="before">Only entries with a smaller number.</param>
    public ListOf<HistoryEntry> History(Guid site, int most, long before = long.MaxValue)
    {
        using StoreContext context = Context();
        return Entries(context, context.History.Where(h => h.SiteId == site && h.Number < before).OrderByDescending(
            h => h.Number).Take(most));
    }

    /// <summary>The entry of a record's version; null where there is none.</summary>
    public HistoryEntry? EntryOf(Guid record, long version)
    {
        using StoreContext context = Context();
        ListOf<HistoryEntry> entries = Entries(context, context.History.Where(h => h.RecordId == record && h.Version == version));
        return entries.Count > 0 ? entries[0] : null;
    }

    private static ListOf<HistoryEntry> Entries(StoreContext context, IQueryable<HistoryRow> rows) =>
        rows.AsNoTracking()
            .Select(h => new { Entry = h, Before = context.History.Where(b => b.RecordId == h.RecordId && b.Version == h.Version - 1)
                .Select(b => b.Value).FirstOrDefault() })
            .AsEnumerable()
            .Select(x => new HistoryEntry(
                x.Entry.Number, x.Entry.Kind, x.Entry.RecordId, x.Entry.Version, new Stamp(x.Entry.By, x.Entry.At), x.Before, x.Entry.Value,
                    x.Entry.UndoOf,
                x.Entry.BroughtInAt is { } at ? new Stamp(x.Entry.BroughtInBy ?? "", at) : null))
            .ToListOf();
}
