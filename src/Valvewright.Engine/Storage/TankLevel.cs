using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Storage;

/// <summary>A tank that a supply draws from.</summary>
/// <param name="VolumeL">What it holds when full.</param>
/// <param name="RefillLpm">What flows in whenever it is not full.</param>
/// <param name="LeastL">What must stay in: below it the pump runs dry, or the outlet draws air.</param>
public sealed record WaterTank(double VolumeL, double RefillLpm, double LeastL = 0)
{
    /// <summary>The most that can be drawn in a stretch of time that begins with a full tank.</summary>
    public double LargestDrawL(Duration during) => VolumeL - LeastL + (RefillLpm * during.TotalMinutes);
}

/// <summary>What a pump allows.</summary>
/// <param name="StartsPerHour">Most starts within any 60 minutes.</param>
/// <param name="RunsOn">How long it runs on, or a pressure tank carries, after the last draw.</param>
public sealed record PumpLimit(int StartsPerHour, Duration RunsOn);

/// <summary>A flow over a stretch of time.</summary>
/// <param name="From">From when.</param>
/// <param name="To">Until when.</param>
/// <param name="Lpm">How much.</param>
public readonly record struct FlowSpell(Instant From, Instant To, double Lpm);

/// <summary>How far a tank falls while a timeline draws from it.</summary>
/// <param name="LowestL">The lowest level; the tank is full at the beginning.</param>
/// <param name="LowestAt">When it is lowest.</param>
/// <param name="ShortFrom">When it first falls below what must stay in; null where it never does.</param>
/// <param name="ShortL">What could not be drawn in all.</param>
/// <param name="RefillLeft">The longest stretch that it takes to fill up again.</param>
public sealed record TankLevel(double LowestL, Instant LowestAt, Instant? ShortFrom, double ShortL, Duration RefillLeft)
{
    /// <summary>The most that could not be drawn before the tank was full again.</summary>
    public double WorstShortL { get; init; }

    /// <summary>How many times it ran short, each counted once until it was full again.</summary>
    public int Shortages { get; init; }

    /// <summary>Whether the tank serves the timeline.</summary>
    public bool Serves => ShortFrom is null;

    /// <summary>Follows a tank through spells of flow, which may overlap.</summary>
    public static TankLevel Of(WaterTank tank, IEnumerable<FlowSpell> spells)
    {
        ArgumentNullException.ThrowIfNull(tank);
        FlowSpell[] all = [.. spells.Where(s => s.To > s.From)];
        (Instant At, double Change)[] events =
            [.. all.SelectMany(s => new[] { (s.From, s.Lpm), (s.To, -s.Lpm) }).OrderBy(e => e.Item1).ThenBy(e => e.Item2)];
        if (events.Length == 0) return new TankLevel(tank.VolumeL, Instant.MinValue, null, 0, Duration.Zero);
        double level = tank.VolumeL, lowest = tank.VolumeL, draw = 0, shortL = 0, sinceFullL = 0, worstL = 0;
        int shortages = 0;
        Instant lowestAt = events[0].At, at = events[0].At, fullAt = events[0].At;
        Instant? shortFrom = null;
        Duration longest = Duration.Zero;
        foreach ((Instant next, double change) in events)
        {
            double minutes = (next - at).TotalMinutes;
            double net = tank.RefillLpm - draw;
            double before = level;
            level += net * minutes;
            if (level < tank.LeastL - 1e-9)
            {
                // Below what must stay in, no more than the refill comes out.
                double reached = before <= tank.LeastL ? 0 : (tank.LeastL - before) / net;
                shortFrom ??= at + Duration.FromMinutes(reached);
                shortages += sinceFullL > 0 ? 0 : 1;
                shortL += tank.LeastL - level;
                sinceFullL += tank.LeastL - level;
                worstL = Math.Max(worstL, sinceFullL);
                level = tank.LeastL;
            }

            if (level >= tank.VolumeL)
            {
                if (before < tank.VolumeL && net > 0) longest = Duration
                    .Max(longest, at + Duration.FromMinutes((tank.VolumeL - before) / net) - fullAt);
                level = tank.VolumeL;
                fullAt = next;
                sinceFullL = 0;
            }

            if (level < lowest) (lowest, lowestAt) = (level, next);
            draw += change;
            at = next;
        }

        if (level < tank.VolumeL && tank.RefillLpm > 0) longest = Duration
            .Max(longest, at + Duration.FromMinutes((tank.VolumeL - level) / tank.RefillLpm) - fullAt);
        return new TankLevel(lowest, lowestAt, shortFrom, shortL, longest) { WorstShortL = worstL, Shortages = shortages };
    }
}

/// <summary>How often a pump starts.</summary>
/// <param name="MostPerHour">Most starts within any 60 minutes.</param>
/// <param name="BusiestHour">When those begin; null where it never starts.</param>
/// <param name="PerYear">Starts per 365 days of the timeline.</param>
public sealed record PumpStarts(int MostPerHour, Instant? BusiestHour, double PerYear)
{
    /// <summary>Counts starts over spells of flow: the pump stops where nothing has drawn for a while.</summary>
    /// <param name="spells">When water is drawn.</param>
    /// <param name="runsOn">How long the pump runs on, or a pressure tank carries, after the last draw.</param>
    public static PumpStarts Of(IEnumerable<FlowSpell> spells, Duration runsOn)
    {
        FlowSpell[] all = [.. spells.Where(s => s.To > s.From).OrderBy(s => s.From)];
        if (all.Length == 0) return new PumpStarts(0, null, 0);
        List<Instant> starts = [];
        Instant until = Instant.MinValue;
        foreach (FlowSpell spell in all)
        {
            if (starts.Count == 0 || spell.From > until + runsOn) starts.Add(spell.From);
            until = Instant.Max(until, spell.To);
        }

        int most = 0, first = 0;
        Instant busiest = starts[0];
        for (int last = 0; last < starts.Count; last++)
        {
            while (starts[last] - starts[first] >= Duration.FromHours(1)) first++;
            if (last - first + 1 > most) (most, busiest) = (last - first + 1, starts[first]);
        }

        double days = Math.Max(1, (until - all[0].From).TotalDays);
        return new PumpStarts(most, busiest, starts.Count * 365 / Math.Max(days, 365));
    }
}
