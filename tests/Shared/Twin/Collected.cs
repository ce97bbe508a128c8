using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Tests.Twin;

/// <summary>Keeps what a controller does.</summary>
public sealed class Collected : IRunSink
{
    private readonly List<StationRun> runs = [];
    private readonly List<StationRun> carriedIn = [];
    private readonly List<LostStart> lost = [];
    private readonly List<PumpRun> pumped = [];

    public void Ran(in StationRun run) => runs.Add(run);

    public void CarriedIn(in StationRun run) => carriedIn.Add(run);

    public void Lost(in LostStart start) => lost.Add(start);

    public void Pumped(in PumpRun run) => pumped.Add(run);

    /// <summary>All of it in order.</summary>
    public Timeline ToTimeline() =>
        new(
            runs.OrderBy(r => r.Opens).ThenBy(r => r.Program).ThenBy(r => r.Station).ToListOf(),
            lost.OrderBy(s => s.DueAt).ThenBy(s => s.Program).ToListOf())
        {
            CarriedIn = carriedIn.OrderBy(r => r.Opens).ThenBy(r => r.Program).ThenBy(r => r.Station).ToListOf(),
            PumpRuns = pumped.ToListOf(),
        };
}
