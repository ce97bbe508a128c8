using NodaTime;
using Valvewright.Engine.Proof.Rules;
using Valvewright.Engine.Proof.Water;
using Valvewright.Engine.Supply;

namespace Valvewright.Engine.Proof;

/// <summary>The flow that a supply must give at every second, from all controllers that draw on it.</summary>
internal static class FlowSweep
{
    /// <summary>Sums of decimal flows differ from the limit by less than this without meaning it.</summary>
    private const double ToleranceLpm = 1e-6;

    /// <summary>Sweeps over all openings and closings; a valve that closes in the second in which another opens does not count
    /// twice.</summary>
    public static SupplyProof Run(DateTimeZone zone, WaterSupply supply, IReadOnlyList<Opening> openings, BreachList breaches)
    {
        (long At, bool Opens, int Index)[] events = EventsOf(openings);
        SiteDays days = new(zone);
        SortedSet<int> open = [];
        double peak = -1;
        long peakAt = 0, openSince = 0;
        Dictionary<int, long> secondsByDate = [];
        for (int i = 0; i < events.Length; i++)
        {
            (long at, bool opens, int index) = events[i];
            openSince = open.Count == 0 ? at : openSince;
            _ = opens ? open.Add(index) : open.Remove(index);
            if (open.Count == 0)
            {
                int date = days.Of(openSince);
                secondsByDate[date] = secondsByDate.GetValueOrDefault(date) + at - openSince;
            }

            if (i + 1 < events.Length && events[i + 1].At == at)
            {
                continue;
            }

            // Summed anew at every change, in a fixed order: no rounding creeps in over the years.
            double flow = open.Count == 0 ? 0
                : open.Count == 1 ? openings[open.Min].Zone?.Emission.FlowLpm ?? 0
                : open.DistinctBy(o => (openings[o].Controller.Name, openings[o].Run.Station))
                .Sum(o => openings[o].Zone?.Emission.FlowLpm ?? 0);
            if (flow > peak + ToleranceLpm)
            {
                (peak, peakAt) = (flow, at);
            }

            if (flow > supply.FlowLpm + ToleranceLpm)
            {
                string together = string
                    .Join(" + ", open.Select(o => $"{openings[o].Controller.Name} {openings[o].Run.Station}").Distinct().Order());
                breaches.Add(BreachKind.FlowOverSupply, supply.Name, $"more flow wanted than it gives, by {together}", SiteTime(at),
                    new BreachFigure(BreachMeasure.FlowLpm, flow, supply.FlowLpm));
            }
        }

        KeyValuePair<int, long> busiest = secondsByDate.OrderByDescending(d => d.Value).ThenBy(d => d.Key).FirstOrDefault();
        return peak < 0
            ? new SupplyProof(supply.Name, supply.FlowLpm, null, null, 0)
            : new SupplyProof(supply.Name, supply.FlowLpm, new FlowPeak(peak, SiteTime(peakAt)), SiteDays.DateOf(busiest.Key),
                busiest.Value / 3600.0);

        LocalDateTime SiteTime(long unix) => Instant.FromUnixTimeSeconds(unix).InZone(zone).LocalDateTime;
    }

    /// <summary>Openings and closings by time; what closes in a second goes before what opens in it.</summary>
    private static (long At, bool Opens, int Index)[] EventsOf(IReadOnlyList<Opening> openings)
    {
        long[] opens = [.. openings.Select(o => o.OpensUnix)], closes = [.. openings.Select(o => o.ClosesUnix)];
        int[] byOpening = [.. Enumerable.Range(0, opens.Length)], byClosing = [.. byOpening];
        Sort(opens, byOpening);
        Sort(closes, byClosing);
        (long At, bool Opens, int Index)[] events = new (long, bool, int)[2 * opens.Length];
        for (int place = 0, open = 0, close = 0; place < events.Length; place++)
        {
            bool isClosing = close < closes.Length && (open == opens.Length || closes[close] <= opens[open]);
            events[place] = isClosing ? (closes[close], false, byClosing[close++]) : (opens[open], true, byOpening[open++]);
        }

        return events;

        // By time, then by index.
        static void Sort(long[] at, int[] index)
        {
            Array.Sort(at, index);
            for (int first = 0, end; first < at.Length; first = end)
            {
                for (end = first + 1; end < at.Length && at[end] == at[first]; end++)
                {
                }

                Array.Sort(index, first, end - first);
            }
        }
    }
}

/// <summary>The largest flow of all seconds.</summary>
/// <param name="Lpm">Flow.</param>
/// <param name="At">When it is first reached, in local time.</param>
public sealed record FlowPeak(double Lpm, LocalDateTime At);
