using Valvewright.Engine.Values;

namespace Valvewright.Engine.Hydraulics;

/// <summary>The sprinklers of a zone that stand at one point of the network.</summary>
/// <param name="Point">The point.</param>
/// <param name="Controller">The controller of the zone.</param>
/// <param name="Station">Its station.</param>
/// <param name="Outlet">What they give at their rated pressure.</param>
/// <param name="LeastKpa">The least pressure at which they work as they should.</param>
/// <param name="LargestKpa">The largest.</param>
public sealed record SprinklerPoint(
    string Point, string Controller, int Station, PressureOutlet Outlet, double LeastKpa, double LargestKpa);

/// <summary>The pipes of one supply with the sprinklers of every zone on them. Sprinklers give water only while their zone runs.</summary>
/// <param name="Network">The pipes; outlets of its points stay open always.</param>
/// <param name="Sprinklers">The sprinklers of the zones; at most one entry for a zone at a point.</param>
public sealed record ZonePipes(PipeNetwork Network, ListOf<SprinklerPoint> Sprinklers)
{
    /// <summary>Velocity above which water hammer and wear are to be expected: 5 ft/s, common practice.</summary>
    public const double LargestVelocityMps = 1.5;

    private const double FlowToleranceLpm = 0.01;

    /// <summary>The zones that have sprinklers, each once, in order.</summary>
    public ListOf<StationId> Zones => Sprinklers.Select(s => new StationId(s.Controller, s.Station)).Distinct()
        .OrderBy(z => z.Controller, StringComparer.Ordinal).ThenBy(z => z.Station).ToListOf();

    /// <summary>The network with some zones running.</summary>
    /// <param name="running">Zones that are open.</param>
    /// <param name="extraAt">A point where more is drawn; null for none.</param>
    /// <param name="extraLpm">How much more.</param>
    /// <exception cref="ArgumentException">The network cannot be solved as it is, or two zones that run share a point.</exception>
    public NetworkBalance Solve(IReadOnlyCollection<StationId> running, string? extraAt = null, double extraLpm = 0)
    {
        ILookup<string, SprinklerPoint> open = Sprinklers.Where(s => running.Contains(new StationId(s.Controller, s.Station)))
            .ToLookup(s => s.Point, StringComparer.Ordinal);
        return NetworkSolver.Solve(Network with
            { Points = Network.Points.Select(point => With(point, open[point.Name], point.Name == extraAt ? extraLpm : 0)).ToListOf() });
    }

    /// <summary>Pressures and flow of one zone while some zones run, itself among them.</summary>
    public ZoneRunPressure Run(StationId zone, IReadOnlyCollection<StationId> running)
    {
        NetworkBalance balance = Solve(running);
        SprinklerPoint[] own = [.. Sprinklers.Where(s => s.Controller == zone.Controller && s.Station == zone.Station)];
        (SprinklerPoint Sprinkler, PointBalance At)[] at = [.. own.Select(s => (s, balance.At(s.Point)))];
        (SprinklerPoint lowest, PointBalance low) = at.MinBy(p => p.At.PressureKpa - p.Sprinkler.LeastKpa);
        (SprinklerPoint highest, PointBalance high) = at.MaxBy(p => p.At.PressureKpa - p.Sprinkler.LargestKpa);
        PipeBalance fastest = balance.Pipes.MaxBy(p => p.VelocityMps)!;
        return new ZoneRunPressure(
            zone, running.Where(other => other != zone).OrderBy(z => z.Controller, StringComparer.Ordinal)
                .ThenBy(z => z.Station).ToListOf(),
            at.Sum(p => p.At.OutletLpm), low.Name, low.PressureKpa, lowest.LeastKpa, high.Name, high.PressureKpa, highest.LargestKpa,
            fastest.Name, fastest.VelocityMps, balance.Points.Max(p => p.SupplyLpm));
    }

    /// <summary>The largest flow that the supply bears: with it, every zone still has its least pressure, wherever the rest is
    /// drawn.</summary>
    /// <remarks>
    /// Zone by zone: the zone runs, and more is drawn where zones of each other controller are (at the supply where there is no other),
    /// until a sprinkler of the zone falls to its least pressure. The smallest sum of all is the limit. Zones that fail alone set no limit,
    /// because no limit helps them; they are listed.
    /// </remarks>
    public BearableFlow LargestFlow()
    {
        List<StationId> failing = [];
        (double flow, StationId? zone, string? at) = (double.PositiveInfinity, null, null);
        string supply = Network.Points.First(p => p.Supply is not null).Name;
        foreach (StationId each in Zones)
        {
            if (Margin(each, null, 0) < 0)
            {
                failing.Add(each);
                continue;
            }

            string[] others = [.. Sprinklers.Where(s => s.Controller != each.Controller).GroupBy(s => s.Controller, StringComparer.Ordinal)
                .Select(g => g.MaxBy(s => s.Outlet.FlowLpm)!.Point)];
            foreach (string point in others.Length > 0 ? others : [supply])
            {
                double most = WithExtra(each, point);
                if (most < flow) (flow, zone, at) = (most, each, point);
            }
        }

        return new BearableFlow(flow, zone, at, failing.ToListOf());
    }

    private double WithExtra(StationId zone, string point)
    {
        double low = 0;
        double high = 10;
        while (Margin(zone, point, high) >= 0)
        {
            if (high > 1e5) return double.PositiveInfinity;
            (low, high) = (high, 2 * high);
        }

        while (high - low > FlowToleranceLpm)
        {
            double middle = (low + high) / 2;
            if (Margin(zone, point, middle) >= 0) low = middle;
            else high = middle;
        }

        return low + Solve([zone], point, low).Points.Sum(p => p.OutletLpm);
    }

    private double Margin(StationId zone, string? extraAt, double extraLpm)
    {
        NetworkBalance balance = Solve([zone], extraAt, extraLpm);
        return Sprinklers.Where(s => s.Controller == zone.Controller && s.Station == zone.Station)
            .Min(s => balance.At(s.Point).PressureKpa - s.LeastKpa);
    }

    private static NetworkPoint With(NetworkPoint point, IEnumerable<SprinklerPoint> open, double extraLpm)
    {
        PressureOutlet? outlet = point.Outlet;
        foreach (SprinklerPoint sprinkler in open)
        {
            if (outlet is null)
            {
                outlet = sprinkler.Outlet;
                continue;
            }

            if (outlet.Exponent != sprinkler.Outlet.Exponent) throw new ArgumentException(
                $"Sprinklers of two kinds are at '{point.Name}'; give each its own point.");
            double same = sprinkler.Outlet.FlowLpm * Math.Pow(outlet.PressureKpa / sprinkler.Outlet.PressureKpa, outlet.Exponent);
            outlet = outlet with { FlowLpm = outlet.FlowLpm + same };
        }

        return point with { DrawLpm = point.DrawLpm + extraLpm, Outlet = outlet };
    }
}

/// <summary>A station of a controller.</summary>
/// <param name="Controller">The controller's name.</param>
/// <param name="Station">The station, from 1.</param>
public sealed record StationId(string Controller, int Station)
{
    /// <inheritdoc/>
    public override string ToString() => $"{Controller} {Station}";
}

/// <summary>A zone's pressures while it runs, alone or with others.</summary>
/// <param name="Zone">The zone.</param>
/// <param name="With">Zones that run at the same time; none where it runs alone.</param>
/// <param name="FlowLpm">What its sprinklers give.</param>
/// <param name="LowestAt">The sprinkler with least to spare above its least pressure.</param>
/// <param name="LowestKpa">The pressure there.</param>
/// <param name="LeastKpa">The least pressure it needs.</param>
/// <param name="HighestAt">The sprinkler nearest to, or farthest beyond, its largest pressure.</param>
/// <param name="HighestKpa">The pressure there.</param>
/// <param name="LargestKpa">The largest pressure it bears.</param>
/// <param name="FastestPipe">The pipe with the largest velocity.</param>
/// <param name="VelocityMps">The velocity in it.</param>
/// <param name="SupplyLpm">All that the supply gives then.</param>
public sealed record ZoneRunPressure(
    StationId Zone, ListOf<StationId> With, double FlowLpm, string LowestAt, double LowestKpa, double LeastKpa,
    string HighestAt, double HighestKpa, double LargestKpa, string FastestPipe, double VelocityMps, double SupplyLpm)
{
    /// <summary>Whether every sprinkler has at least its least pressure.</summary>
    public bool HasEnough => LowestKpa >= LeastKpa;

    /// <summary>Whether some sprinkler has more than its largest pressure, and makes mist.</summary>
    public bool HasTooMuch => HighestKpa > LargestKpa;

    /// <summary>Whether water runs faster than the trade advises.</summary>
    public bool IsFast => VelocityMps > ZonePipes.LargestVelocityMps;
}

/// <summary>The largest flow that a supply bears.</summary>
/// <param name="FlowLpm">The flow; infinite where nothing limits it, and where no zone works even alone.</param>
/// <param name="Zone">The zone that is first to fall short; null where none is.</param>
/// <param name="DrawnAt">Where the rest was drawn.</param>
/// <param name="FailAlone">Zones that fall short even alone.</param>
public sealed record BearableFlow(double FlowLpm, StationId? Zone, string? DrawnAt, ListOf<StationId> FailAlone);
