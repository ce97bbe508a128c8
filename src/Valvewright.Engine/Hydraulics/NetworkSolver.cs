using Valvewright.Engine.Values;

namespace Valvewright.Engine.Hydraulics;

/// <summary>Finds the pressures and flows at which a network is in balance.</summary>
/// <remarks>
/// Newton's method on heads and flows together, the global gradient method (Todini, E. and Pilati, S. (1988), A gradient algorithm for the
/// analysis of pipe networks, Computer Applications in Water Supply 1, 1-20). Outlets and supplies are links to a fixed head,
/// so one rule serves pipes, sprinklers and curves. Water never comes in at a sprinkler.
/// </remarks>
public static class NetworkSolver
{
    private const int MostSteps = 300;
    private const int FullSteps = 40;
    private const double SmallestGradient = 1e-3;
    private const double Steep = 1e9;

    /// <summary>A compensating emitter still gives a little more with pressure; below this the equations get stiff.</summary>
    private const double SmallestExponent = 0.1;

    /// <summary>Solves a network.</summary>
    /// <exception cref="ArgumentException">The network has no supply, a point has no way to one, or a pipe leads nowhere.</exception>
    /// <exception cref="InvalidOperationException">No balance was found.</exception>
    public static NetworkBalance Solve(PipeNetwork network)
    {
        ArgumentNullException.ThrowIfNull(network);
        Dictionary<string, int> index = network.Index();
        int count = network.Points.Count;
        double?[] fixedHeads = [.. network.Points.Select(FixedHead)];
        List<Link> links = [.. network.Pipes.Select(pipe => Link.Of(pipe, index))];
        int[] outletLinks = AddOutlets(network, links);
        int[] supplyLinks = AddSupplies(network, links, fixedHeads);
        RequireSupplied(network, links, count, fixedHeads);

        double[] heads = [.. fixedHeads.Select(head => head ?? 0)];
        double[] draws = [.. network.Points.Select(point => point.DrawLpm / HazenWilliams.LpmPerM3S)];
        Iterate(links, heads, draws, [.. fixedHeads.Select(head => head is not null)]);
        double error = links.Max(link => Math.Abs(link.Head(link.Flow).Loss - (link.HeadFrom(heads) - link.HeadTo(heads))));
        return new NetworkBalance(
            network.Points.Select((point, i) =>
                Balance(point, heads[i], Lpm(outletLinks[i], links), Supplied(i, links, supplyLinks, fixedHeads, draws))).ToListOf(),
            network.Pipes.Select((pipe, i) => Balance(pipe, links[i].Flow * HazenWilliams.LpmPerM3S)).ToListOf(),
            error);
    }

    private static void Iterate(List<Link> links, double[] heads, double[] draws, bool[] isFixed)
    {
        SparseHeads equations = new(
            heads.Length, links.Where(l => l.From >= 0 && l.To >= 0 && !isFixed[l.From] && !isFixed[l.To]).Select(l => (l.From, l.To)));
        double[] diagonal = new double[heads.Length];
        double[] right = new double[heads.Length];
        double[] values = new double[equations.Slots];
        for (int step = 0; step < MostSteps; step++)
        {
            Array.Clear(values);
            Array.Clear(diagonal);
            for (int i = 0; i < heads.Length; i++) (diagonal[i], right[i]) = isFixed[i] ? (1, heads[i]) : (0, -draws[i]);
            foreach (Link link in links) link.Enter(equations, values, diagonal, right, heads, isFixed);
            equations.Solve(diagonal, values, right);
            right.CopyTo(heads, 0);
            double moved = 0;
            double sum = 0;
            double share = step < FullSteps ? 1 : 0.5;
            foreach (Link link in links)
            {
                double change = share * link.Step(heads);
                link.Flow += change;
                moved += Math.Abs(change);
                sum += Math.Abs(link.Flow);
            }

            if (moved <= 1e-11 + (1e-8 * sum)) return;
        }

        throw new InvalidOperationException(
            "The pipe network has no balance that could be found; check lengths, diameters and supply readings.");
    }

    /// <summary>A supply of one reading holds its head; others follow their curve.</summary>
    private static double? FixedHead(NetworkPoint point) =>
        point.Supply is { Points.Count: 1 } steady ? point.ElevationM + (steady.PressureKpa(0) / HazenWilliams.KpaPerM) : null;

    private static int[] AddOutlets(PipeNetwork network, List<Link> links)
    {
        int[] places = [.. network.Points.Select(_ => -1)];
        for (int i = 0; i < places.Length; i++)
        {
            if (network.Points[i].Outlet is not { } outlet) continue;
            places[i] = links.Count;
            double flow = outlet.FlowLpm / HazenWilliams.LpmPerM3S;
            double rated = outlet.PressureKpa / HazenWilliams.KpaPerM;
            double power = 1 / Math.Max(outlet.Exponent, SmallestExponent);
            links.Add(new Link(i, -1, double.NaN, network.Points[i].ElevationM, q => Nozzle(q, flow, rated, power)) { Flow = flow });
        }

        return places;
    }

    private static int[] AddSupplies(PipeNetwork network, List<Link> links, double?[] fixedHeads)
    {
        int[] places = [.. network.Points.Select(_ => -1)];
        double start = Math.Max(1e-5, network.Points.Sum(p => Math.Max(0, p.DrawLpm) + (p.Outlet?.FlowLpm ?? 0)) / HazenWilliams.LpmPerM3S);
        for (int i = 0; i < places.Length; i++)
        {
            if (network.Points[i].Supply is not { } curve || fixedHeads[i] is not null) continue;
            places[i] = links.Count;
            links.Add(new Link(-1, i, network.Points[i].ElevationM, double.NaN, q => Drop(q, curve)) { Flow = start });
        }

        return places;
    }

    /// <summary>Head of a nozzle over its flow. Against the flow it is as good as shut.</summary>
    private static (double Loss, double Gradient) Nozzle(double q, double flow, double rated, double power)
    {
        if (q <= 0) return (Steep * q, Steep);
        double head = rated * Math.Pow(q / flow, power);
        double gradient = power * head / q;
        return gradient < SmallestGradient ? (SmallestGradient * q, SmallestGradient) : (head, gradient);
    }

    /// <summary>Head between the ground at a supply and the pipe behind it: minus the curve.</summary>
    private static (double Loss, double Gradient) Drop(double q, SupplyCurve curve)
    {
        double lpm = q * HazenWilliams.LpmPerM3S;
        if (q <= 0) return (-(curve.PressureAt(0, out _) / HazenWilliams.KpaPerM) + (Steep * q), Steep);
        double pressure = curve.PressureAt(Math.Pow(lpm, HazenWilliams.FlowPower), out double slope);
        double gradient = -slope * HazenWilliams.FlowPower * Math
            .Pow(lpm, HazenWilliams.FlowPower - 1) * HazenWilliams.LpmPerM3S / HazenWilliams.KpaPerM;
        return (-pressure / HazenWilliams.KpaPerM, Math.Max(gradient, SmallestGradient));
    }

    private static void RequireSupplied(PipeNetwork network, List<Link> links, int count, double?[] fixedHeads)
    {
        bool[] reached = new bool[count];
        Stack<int> todo = new(Enumerable.Range(0, count).Where(i => fixedHeads[i] is not null || network.Points[i].Supply is not null));
        ILookup<int, int> beyond = links.Where(l => l.From >= 0 && l.To >= 0).SelectMany(l => new[] { (l.From, l.To), (l.To, l.From) })
            .ToLookup(p => p.Item1, p => p.Item2);
        while (todo.TryPop(out int i))
        {
            if (reached[i]) continue;
            reached[i] = true;
            foreach (int next in beyond[i]) todo.Push(next);
        }

        int dry = Array.IndexOf(reached, false);
        if (dry >= 0) throw new ArgumentException($"No pipe leads from a supply to '{network.Points[dry].Name}'.", nameof(network));
    }

    private static double Lpm(int link, List<Link> links) => link < 0 ? 0 : Math.Max(0, links[link].Flow) * HazenWilliams.LpmPerM3S;

    /// <summary>What comes in: along the curve, or, where the head is held, whatever the pipes take away.</summary>
    private static double Supplied(int point, List<Link> links, int[] supplyLinks, double?[] fixedHeads, double[] draws)
    {
        if (supplyLinks[point] >= 0) return Lpm(supplyLinks[point], links);
        if (fixedHeads[point] is null) return 0;
        return (draws[point] + links.Sum(l => (l.From == point ? l.Flow : 0) - (l.To == point ? l.Flow : 0))) * HazenWilliams.LpmPerM3S;
    }

    private static PointBalance Balance(NetworkPoint point, double head, double outlet, double supply) =>
        new(point.Name, head, (head - point.ElevationM) * HazenWilliams.KpaPerM, outlet, supply);

    private static PipeBalance Balance(PipeRun pipe, double flowLpm) => new(
        pipe.Name,
        flowLpm,
        HazenWilliams.VelocityMps(flowLpm, pipe.InsideDiameterMm),
        HazenWilliams.KpaPerM * (Math.Abs(HazenWilliams.LossM(flowLpm, pipe.LengthM, pipe.InsideDiameterMm, pipe.Roughness))
            + Math.Abs(HazenWilliams.FittingLossM(flowLpm, pipe.InsideDiameterMm, pipe.LossCoefficient))));

    /// <summary>Something between two heads with a flow that rises with their difference; -1 is a head that is given.</summary>
    private sealed class Link(int from, int to, double givenFrom, double givenTo, Func<double, (double Loss, double Gradient)> head)
    {
        internal int From => from;

        internal int To => to;

        internal double Flow { get; set; }

        internal Func<double, (double Loss, double Gradient)> Head => head;

        internal static Link Of(PipeRun pipe, Dictionary<string, int> index)
        {
            double friction = HazenWilliams.Resistance(pipe.LengthM, pipe.InsideDiameterMm, pipe.Roughness);
            double fittings = HazenWilliams.FittingResistance(pipe.InsideDiameterMm, pipe.LossCoefficient);
            double diameter = pipe.InsideDiameterMm / 1000;
            return new Link(index[pipe.From], index[pipe.To], double.NaN, double.NaN, q => Friction(q, friction, fittings))
            {
                Flow = 0.3 * Math.PI * diameter * diameter / 4,
            };
        }

        internal double HeadFrom(double[] heads) => from < 0 ? givenFrom : heads[from];

        internal double HeadTo(double[] heads) => to < 0 ? givenTo : heads[to];

        /// <summary>The change of flow that brings the link into balance with the heads.</summary>
        internal double Step(double[] heads)
        {
            (double loss, double gradient) = head(Flow);
            return (HeadFrom(heads) - HeadTo(heads) - loss) / gradient;
        }

        /// <summary>Enters the link's linear form, flow = y + p (head from - head to), into the continuity of its ends.</summary>
        internal void Enter(SparseHeads equations, double[] values, double[] diagonal, double[] right, double[] heads, bool[] isFixed)
        {
            (double loss, double gradient) = head(Flow);
            double p = 1 / gradient;
            double y = Flow - (p * loss);
            bool freeFrom = from >= 0 && !isFixed[from];
            bool freeTo = to >= 0 && !isFixed[to];
            if (freeFrom)
            {
                diagonal[from] += p;
                right[from] -= y - (freeTo ? 0 : p * HeadTo(heads));
            }

            if (freeTo)
            {
                diagonal[to] += p;
                right[to] += y + (freeFrom ? 0 : p * HeadFrom(heads));
            }

            if (freeFrom && freeTo) values[equations.SlotOf(from, to)] -= p;
        }

        private static (double Loss, double Gradient) Friction(double q, double friction, double fittings)
        {
            double size = Math.Abs(q);
            double rub = friction * Math.Pow(size, HazenWilliams.FlowPower - 1);
            double gradient = (HazenWilliams.FlowPower * rub) + (2 * fittings * size);
            return gradient < SmallestGradient
                ? (SmallestGradient * q, SmallestGradient)
                : ((rub + (fittings * size)) * q, gradient);
        }
    }
}
