using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Hydraulics;

/// <summary>One opening of a station.</summary>
/// <param name="Zone">Which.</param>
/// <param name="Opens">From when.</param>
/// <param name="Closes">Until when.</param>
public readonly record struct StationOpening(StationId Zone, Instant Opens, Instant Closes);

/// <summary>Stations that are open at the same time.</summary>
/// <param name="Zones">Which.</param>
/// <param name="Seconds">For how long in all.</param>
/// <param name="First">When first.</param>
public sealed record OpenTogether(ListOf<StationId> Zones, long Seconds, Instant First)
{
    /// <summary>Every set of stations that a timeline has open at the same time, the longest first.</summary>
    /// <remarks>A valve that closes in the second in which another opens is not open with it.</remarks>
    public static ListOf<OpenTogether> Of(IEnumerable<StationOpening> openings)
    {
        StationOpening[] all = [.. openings];
        (Instant At, bool Opens, int Index)[] events =
            [.. all.SelectMany((o, i) => new[] { (o.Opens, true, i), (o.Closes, false, i) }).OrderBy(e => e.Item1).ThenBy(e => e.Item2)
                .ThenBy(e => e.i)];
        Dictionary<string, OpenTogether> sets = new(StringComparer.Ordinal);
        SortedSet<int> open = [];
        for (int i = 0; i < events.Length; i++)
        {
            _ = events[i].Opens ? open.Add(events[i].Index) : open.Remove(events[i].Index);
            if (open.Count == 0 || i + 1 == events.Length || events[i + 1].At == events[i].At) continue;
            StationId[] zones = [
                .. open.Select(o => all[o].Zone).Distinct().OrderBy(z => z.Controller, StringComparer.Ordinal).ThenBy(z => z.Station)];
            string key = string.Join('\n', zones.Select(z => z.ToString()));
            long seconds = (long)(events[i + 1].At - events[i].At).TotalSeconds;
            sets[key] = sets.TryGetValue(key, out OpenTogether? before)
                ? before with { Seconds = before.Seconds + seconds }
                : new OpenTogether(zones.ToListOf(), seconds, events[i].At);
        }

        return sets.Values.OrderByDescending(s => s.Seconds).ThenBy(s => s.First).ToListOf();
    }
}
