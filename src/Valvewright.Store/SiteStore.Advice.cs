using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Valvewright.Engine.Values;
using Valvewright.Records;
using Valvewright.Store.Rows;

namespace Valvewright.Store;

public sealed partial class SiteStore
{
    private static readonly RecordKind[] AdviceRestsOn = [RecordKind.Site, RecordKind.Weather, RecordKind.Plan, RecordKind.Visit];

    /// <summary>For each site that is not removed a number that rises with every change of what advice rests on: survey, weather,
    /// plans, visits.</summary>
    public IReadOnlyDictionary<Guid, long> Marks()
    {
        using StoreContext context = Context();
        return context.Records.AsNoTracking().Where(r => AdviceRestsOn.Contains(r.Kind)
                && context.Records.Any(s => s.Id == r.SiteId && s.Value != null)).GroupBy(r => r.SiteId)
            .Select(g => new { Site = g.Key, Mark = g.Sum(r => r.Version) }).ToDictionary(m => m.Site, m => m.Mark);
    }

    /// <summary>The advice that is kept, without what it says.</summary>
    public IReadOnlyDictionary<Guid, (LocalDate Night, long Mark)> AdviceKept()
    {
        using StoreContext context = Context();
        return context.Advice.AsNoTracking().Select(a => new { a.SiteId, a.Night, a.Mark })
            .ToDictionary(a => a.SiteId, a => (LocalDatePattern.Iso.Parse(a.Night).Value, a.Mark));
    }

    /// <summary>A site's advice; null where none is kept.</summary>
    public KeptAdvice? Advice(Guid site)
    {
        using StoreContext context = Context();
        return context.Advice.AsNoTracking().SingleOrDefault(a => a.SiteId == site) is { } row ? Kept(row) : null;
    }

    /// <summary>The advice that is kept, of all sites that are not removed.</summary>
    public ListOf<KeptAdvice> Advice()
    {
        using StoreContext context = Context();
        return context.Advice.AsNoTracking()
            .Where(a => context.Records.Any(s => s.Id == a.SiteId && s.Value != null)).AsEnumerable()
            .Select(Kept).OrderBy(a => a.Site).ToListOf();
    }

    /// <summary>Keeps a site's advice, where what is kept is older. Of several who did the same work the first counts.</summary>
    /// <returns>Whether it was written.</returns>
    public bool KeepAdvice(KeptAdvice advice)
    {
        ArgumentNullException.ThrowIfNull(advice);
        string night = LocalDatePattern.Iso.Format(advice.Night);
        return Write(context =>
        {
            AdviceRow? row = context.Advice.Find(advice.Site);
            if (row is not null && (string.CompareOrdinal(row.Night, night) > 0 || (row.Night == night && row.Mark >= advice.Mark)))
            {
                return false;
            }

            if (row is null)
            {
                row = new AdviceRow { SiteId = advice.Site };
                context.Advice.Add(row);
            }

            (row.Night, row.Mark, row.At, row.Value) = (night, advice.Mark, advice.At, advice.Value);
            return true;
        });
    }

    /// <summary>Keeps a secret address.</summary>
    public void AddFeed(KeptFeed feed)
    {
        ArgumentNullException.ThrowIfNull(feed);
        Write(context => context.Feeds.Add(new FeedRow
        {
            Id = feed.Id, Name = feed.Name, Digest = feed.Digest, OrganizationId = feed.Organization, By = feed.Made.By,
            MadeAt = feed.Made.At,
        }));
    }

    /// <summary>The secret addresses of an organization, or of those who do not sign in.</summary>
    public ListOf<KeptFeed> Feeds(Guid? organization)
    {
        using StoreContext context = Context();
        return context.Feeds.AsNoTracking().Where(f => f.OrganizationId == organization).AsEnumerable().Select(Kept)
            .OrderBy(f => f.Made.At).ThenBy(f => f.Id).ToListOf();
    }

    /// <summary>The secret address with this digest; null where there is none.</summary>
    public KeptFeed? Feed(string digest)
    {
        using StoreContext context = Context();
        return context.Feeds.AsNoTracking().SingleOrDefault(f => f.Digest == digest) is { } row ? Kept(row) : null;
    }

    /// <summary>Takes a secret address away.</summary>
    /// <returns>Whether there was one.</returns>
    public bool RemoveFeed(Guid id, Guid? organization) =>
        Write(context => context.Feeds.Where(f => f.Id == id && f.OrganizationId == organization).ExecuteDelete() > 0);

    private static KeptAdvice Kept(AdviceRow row) =>
        new(row.SiteId, LocalDatePattern.Iso.Parse(row.Night).Value, row.Mark, row.At, row.Value);

    private static KeptFeed Kept(FeedRow row) => new(row.Id, row.Name, row.Digest, row.OrganizationId, new Stamp(row.By, row.MadeAt));
}
