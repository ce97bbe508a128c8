using Valvewright.Planning.Rounds;
using Valvewright.Work.Rounds;

namespace Valvewright.Work.Search.Rounds;

/// <summary>What is done at a site in one stop.</summary>
/// <param name="Site">The site.</param>
/// <param name="Items">What is due there and can be done on the same day.</param>
/// <param name="Task">The same as work to be routed.</param>
internal sealed record StopWork(NamedPlace Site, ListOf<DueItem> Items, RoundTask Task)
{
    private const long Minute = 60;
    private const long Hour = 60 * Minute;
    private const long PromiseKept = 100 * Hour;
    private const long MostForWater = 4 * Hour;
    private const double LitresPerMinute = 100;

    /// <summary>The stops of all sites, and what cannot be part of one.</summary>
    public static (ListOf<StopWork> Stops, List<LeftOnList> Left) Of(RoundsRequest request)
    {
        List<LeftOnList> left = [];
        List<StopWork> stops = [];
        foreach (NamedPlace site in request.Sites.OrderBy(s => s.Name, StringComparer.Ordinal))
        {
            PromisedVisit? promised = request.Promised.Where(p => p.Site == site.Name).OrderBy(p => p.On).FirstOrDefault();
            int[] promisedDays = [.. Days(request).Where(d => request.Days[d] == promised?.On)];
            List<DueItem> together = [];
            int[] days = promised is null ? [.. Days(request)] : promisedDays;
            foreach (DueItem item in request.Due.Where(i => i.Site == site.Name).OrderBy(i => i.Latest))
            {
                int[] own = [.. DaysOf(request, item)];
                int[] both = [.. promised is null ? days.Intersect(own) : days.Where(d => request.Days[d] >= item.Earliest)];
                if (own.Length == 0 || both.Length == 0)
                {
                    left.Add(new LeftOnList(item, own.Length == 0 ? NotReached.TooEarly
                        : days.Length == 0 ? NotReached.PromisedOtherwise : NotReached.DatesApart));
                    continue;
                }

                together.Add(item);
                days = both;
            }

            if (together.Count > 0)
            {
                stops.Add(Stop(request, site, together, days, promised));
            }
        }

        return (stops.ToListOf(), left);
    }

    private static IEnumerable<int> Days(RoundsRequest request) => Enumerable.Range(0, request.Days.Count);

    /// <summary>The days on which it is in time; once none is any more, every day that is not too early.</summary>
    private static int[] DaysOf(RoundsRequest request, DueItem item)
    {
        int[] useful = [.. Days(request).Where(d => request.Days[d] >= item.Earliest)];
        int[] inTime = [.. useful.Where(d => request.Days[d] <= item.Latest)];
        return inTime.Length > 0 ? inTime : useful;
    }

    private static StopWork Stop(RoundsRequest request, NamedPlace site, List<DueItem> items, int[] days, PromisedVisit? promised)
    {
        long minutes = request.MinutesPerStop + items.Sum(i => i.Minutes);
        long leftOut = items.Sum(LeftOutCost) + (promised is null ? 0 : PromiseKept);
        return new StopWork(site, items.ToListOf(), new RoundTask(
            site.Name, Minute * minutes, leftOut, items.Sum(i => WaitCost(request, i)), days.ToListOf(),
            promised is null ? 0 : RoundsPlan.SecondsOf(promised.From),
            promised is null ? 24 * Hour : RoundsPlan.SecondsOf(promised.To)));
    }

    /// <summary>Driving that an item is worth: by its risk, and a minute for every 100 L.</summary>
    private static long LeftOutCost(DueItem item) => item.Risk switch { DueRisk.High => 8 * Hour, DueRisk.Medium => 3 * Hour, _ => Hour }
        + Math.Min(MostForWater, (long)((item.WorthLitres ?? 0) / LitresPerMinute) * Minute);

    private static long WaitCost(RoundsRequest request, DueItem item) => Minute
        * item.Risk switch { DueRisk.High => 40, DueRisk.Medium => 10, _ => 2 } * (item.Latest < request.Days[0] ? 2 : 1);
}
