using Valvewright.Engine.Sprinklers;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Programs;

namespace Valvewright.Planning.Hours;

/// <summary>A program draft with the shape of its runs, ready to be given dates and start times.</summary>
internal sealed class TimedProgram
{
    public TimedProgram(ProgramDraft draft, ControllerCase of, EarlyHours early, int guardSeconds)
    {
        Draft = draft;
        Of = of;
        Early = early;
        Shape = RunShape.Of(draft, of, guardSeconds);
        bool exempt = of.Supply.Permitted.DripIsExempt
            && draft.Stations.All(s => of.Zones[s.Zone].Zone.Emission.Kind is EmissionKind.Drip or EmissionKind.Bubbler);
        Phases = [.. draft.Days.Phases
            .Select(p => exempt ? p with { Spans = PermittedSpan.AnyHours } : p)
            .Where(p => p.Spans.Any(s => FitsSpan(s)))];
        IsSeedbed = draft.Stations.Any(s => of.Zones[s.Zone].IsSeedbed);
    }

    public ProgramDraft Draft { get; }

    public ControllerCase Of { get; }

    /// <summary>The hours for overhead water by its controller's clock.</summary>
    public EarlyHours Early { get; }

    public RunShape Shape { get; }

    /// <summary>Rules it may take; none when no permitted span is long enough.</summary>
    public IReadOnlyList<WaterDayPhase> Phases { get; }

    public bool IsSeedbed { get; }

    /// <summary>Seconds the controller is busy on a watering day.</summary>
    public int BusySeconds => Shape.Seconds * Draft.Cycles;

    /// <summary>What of it sprinklers over established plants take, with what is between them.</summary>
    public int OverheadSeconds => IsSeedbed || Shape.Overhead is not { } part ? 0 : (part.To - part.From) * Draft.Cycles;

    /// <summary>Whether its cycles of a date belong together; a seedbed's are spread over the day.</summary>
    public bool HasCyclesToKeepTogether => Draft.Cycles > 1 && !IsSeedbed;

    /// <summary>From the first cycle's start to the last one's, at least: every run and every soak.</summary>
    public int CyclesAndSoaksSeconds => (Draft.Cycles - 1) * Shape.StartToStartSeconds;

    /// <summary>Steps to look for start times in, seconds, coarsest first.</summary>
    public IReadOnlyList<int> StartSteps => [.. RoundTimes.StartSteps(Of.Profile.StartStepMinutes).Select(m => m * 60)];

    /// <summary>Start times, in steps after midnight, from which a run lies wholly in permitted hours.</summary>
    public List<(int First, int Last)> StartsIn(WaterDayPhase phase, int stepSeconds) =>
        [.. phase.Spans
            .Select(s => (First: (s.From + stepSeconds - 1) / stepSeconds,
                Last: Math.Min(s.To - Shape.Seconds, PermittedSpan.Day - 1) / stepSeconds))
            .Where(r => r.First <= r.Last)];

    /// <summary>Start times in the profile's own steps.</summary>
    public List<(int First, int Last)> StartsIn(WaterDayPhase phase) => StartsIn(phase, StartSteps[^1]);

    private bool FitsSpan(PermittedSpan span) =>
        (span.From + StartSteps[^1] - 1) / StartSteps[^1] * StartSteps[^1] + Shape.Seconds <= span.To;
}
