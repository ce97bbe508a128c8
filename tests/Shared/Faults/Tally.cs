using Valvewright.Engine.Faults;

namespace Valvewright.Tests.Faults;

/// <summary>What came of a procedure on many cases.</summary>
internal sealed class Tally
{
    private int cases, right, whole, steps;
    private double minutes;

    /// <summary>Share of cases whose named cause is one of theirs.</summary>
    public double Right => (double)right / cases;

    /// <summary>Share of cases of which all causes are named and no other.</summary>
    public double Whole => (double)whole / cases;

    /// <summary>Minutes a case.</summary>
    public double Minutes => minutes / cases;

    /// <summary>Steps a case.</summary>
    public double Steps => (double)steps / cases;

    public void Add(CaseRun run, SimulatedCase played)
    {
        cases++;
        right += run.IsRight(played) ? 1 : 0;
        whole += run.IsWhole(played) ? 1 : 0;
        steps += run.Order.Count;
        minutes += run.Minutes;
    }
}

/// <summary>Sites that cases are simulated at.</summary>
internal static class SimulatedSites
{
    public static IReadOnlyList<TraceFacts> All { get; } =
    [
        new() { Stations = 4, HasSensor = true },
        new() { Stations = 4, WireM = 60 },
        new() { Stations = 1, Drips = true, StaticKpa = 250, RunningKpa = 120 },
        new() { Stations = 6, HasPump = true, HasSensor = true, Cells = 4 },
    ];
}
