namespace Valvewright.Engine.Controllers;

/// <summary>Takes what a controller does, as it happens; for callers that need no list of it.</summary>
/// <remarks>A struct that implements it is called without boxing, and nothing is allocated for an event.</remarks>
public interface IRunSink
{
    /// <summary>A station ran. Runs come by rising opening time.</summary>
    void Ran(in StationRun run);

    /// <summary>A station ran for a start before the first date asked for and was open, or opened, after it began.</summary>
    void CarriedIn(in StationRun run);

    /// <summary>A start was not followed.</summary>
    void Lost(in LostStart start);

    /// <summary>The pump or master valve output was on.</summary>
    void Pumped(in PumpRun run);
}

/// <summary>Collects everything into a timeline.</summary>
internal struct TimelineSink : IRunSink
{
    private readonly List<StationRun> runs;
    private readonly List<StationRun> carriedIn;
    private readonly List<LostStart> lost;
    private readonly List<PumpRun> pumped;

    public TimelineSink()
    {
        runs = new List<StationRun>(256);
        carriedIn = [];
        lost = [];
        pumped = [];
    }

    public readonly void Ran(in StationRun run) => runs.Add(run);

    public readonly void CarriedIn(in StationRun run) => carriedIn.Add(run);

    public readonly void Lost(in LostStart start) => lost.Add(start);

    public readonly void Pumped(in PumpRun run) => pumped.Add(run);

    public readonly Timeline ToTimeline()
    {
        PutInOrder(runs);
        PutInOrder(carriedIn);
        lost.Sort((a, b) => a.DueAt != b.DueAt ? a.DueAt.CompareTo(b.DueAt) : a.Program.CompareTo(b.Program));
        return new Timeline([.. runs], [.. lost]) { CarriedIn = [.. carriedIn], PumpRuns = [.. pumped] };
    }

    /// <summary>Runs come by rising opening time; only what opens at once may have to change places.</summary>
    private static void PutInOrder(List<StationRun> runs)
    {
        for (int index = 1; index < runs.Count; index++)
        {
            if (runs[index].Opens <= runs[index - 1].Opens)
            {
                runs.Sort(ByOpening);
                return;
            }
        }
    }

    private static int ByOpening(StationRun a, StationRun b) =>
        a.Opens != b.Opens ? a.Opens.CompareTo(b.Opens)
        : a.Program != b.Program ? a.Program.CompareTo(b.Program)
        : a.Station.CompareTo(b.Station);
}
