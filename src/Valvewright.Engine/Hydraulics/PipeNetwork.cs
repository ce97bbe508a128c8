using Valvewright.Engine.Values;

namespace Valvewright.Engine.Hydraulics;

/// <summary>Pipes between points, where water comes in and where it goes out. Branches and loops alike.</summary>
/// <param name="Points">Every point where pipes meet or end, each name once.</param>
/// <param name="Pipes">The runs between them.</param>
public sealed record PipeNetwork(ListOf<NetworkPoint> Points, ListOf<PipeRun> Pipes)
{
    /// <summary>Places of the points by name; throws where a name stands twice or a pipe leads nowhere.</summary>
    internal Dictionary<string, int> Index()
    {
        Dictionary<string, int> index = new(StringComparer.Ordinal);
        foreach (NetworkPoint point in Points)
        {
            if (!index.TryAdd(point.Name, index.Count)) throw new ArgumentException($"Two points are named '{point.Name}'.");
        }

        foreach (PipeRun pipe in Pipes)
        {
            foreach (string end in (string[])[pipe.From, pipe.To])
            {
                if (!index.ContainsKey(end)) throw new ArgumentException(
                    $"Pipe '{pipe.Name}' leads to '{end}', which is not a point of the network.");
            }

            if (!(pipe.LengthM > 0) || !(pipe.InsideDiameterMm > 0) || !(pipe.Roughness > 0) || !(pipe.LossCoefficient >= 0))
            {
                throw new ArgumentException($"Pipe '{pipe.Name}' needs a length, an inside diameter and a roughness above 0.");
            }
        }

        if (!Points.Any(point => point.Supply is not null)) throw new ArgumentException("A network needs a point with a supply.");
        return index;
    }
}

/// <summary>A point of a network.</summary>
/// <param name="Name">Its name.</param>
/// <param name="ElevationM">Its height; only differences matter.</param>
/// <param name="DrawLpm">A flow that leaves whatever the pressure is; below zero where it comes in.</param>
/// <param name="Outlet">Sprinklers whose flow follows the pressure; null where there are none.</param>
/// <param name="Supply">The pressure of a supply at this point; null where none comes in.</param>
public sealed record NetworkPoint(
    string Name, double ElevationM, double DrawLpm = 0, PressureOutlet? Outlet = null, SupplyCurve? Supply = null);

/// <summary>An outlet whose flow follows its pressure: flow x (p / pressure)^exponent.</summary>
/// <param name="FlowLpm">Flow at the rated pressure.</param>
/// <param name="PressureKpa">The rated pressure.</param>
/// <param name="Exponent">0.5 for a nozzle or orifice; 0 for a compensating emitter, which is solved as 0.1.</param>
public sealed record PressureOutlet(double FlowLpm, double PressureKpa, double Exponent = 0.5);

/// <summary>A straight run of one pipe.</summary>
/// <param name="Name">Its name.</param>
/// <param name="From">Point where it begins.</param>
/// <param name="To">Point where it ends.</param>
/// <param name="LengthM">Length.</param>
/// <param name="InsideDiameterMm">Inside diameter.</param>
/// <param name="Roughness">Hazen-Williams C.</param>
/// <param name="LossCoefficient">Sum of the loss coefficients K of its fittings and valves.</param>
public sealed record PipeRun(
    string Name, string From, string To, double LengthM, double InsideDiameterMm, double Roughness, double LossCoefficient = 0);

/// <summary>Pressures and flows of a network in balance.</summary>
/// <param name="Points">One for each point, in the network's order.</param>
/// <param name="Pipes">One for each pipe, in the network's order.</param>
/// <param name="WorstEnergyErrorM">Largest difference between a pipe's loss and the heads at its ends.</param>
public sealed record NetworkBalance(ListOf<PointBalance> Points, ListOf<PipeBalance> Pipes, double WorstEnergyErrorM)
{
    /// <summary>The result at a point.</summary>
    public PointBalance At(string point) => Points.First(p => p.Name == point);
}

/// <summary>One point in balance.</summary>
/// <param name="Name">The point.</param>
/// <param name="HeadM">Elevation plus pressure head.</param>
/// <param name="PressureKpa">Gauge pressure; below zero where the draw asks for more than arrives.</param>
/// <param name="OutletLpm">What its sprinklers give.</param>
/// <param name="SupplyLpm">What its supply gives.</param>
public sealed record PointBalance(string Name, double HeadM, double PressureKpa, double OutletLpm, double SupplyLpm);

/// <summary>One pipe in balance.</summary>
/// <param name="Name">The pipe.</param>
/// <param name="FlowLpm">Flow; below zero where it runs from the end to the beginning.</param>
/// <param name="VelocityMps">Velocity.</param>
/// <param name="LossKpa">Pressure lost to friction and fittings.</param>
public sealed record PipeBalance(string Name, double FlowLpm, double VelocityMps, double LossKpa);
