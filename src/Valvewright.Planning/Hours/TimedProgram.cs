using Valvewright.Engine.Sprinklers;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Programs;

namespace Valvewright.Planning.Hours;

/// <summary>A program draft with the shape of its runs, ready to be given dates and start times.</summary>
internal sealed class TimedProgram
{
    public TimedProgram(ProgramDraft draft, ControllerCase of, int guardSeconds)
    {
        Draft = draft;
        Of = of;
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

    public RunShape Shape { get; }

    /// <summary>Rules it may take; none when no permitted span is long enough.</summary>
    public IReadOnlyList<WaterDayPhase> Phases { get; }

    public bool IsSeedbed { get; }

    public int StepSeconds => Of.Profile.StartStepMinutes * 60;

    /// <summary>Seconds the controller is busy on a water day.</summary>
    public int BusySeconds => Shape.Seconds * Draft.Cycles;

    /// <summary>Start times, in steps after midnight, from which a run lies wholly in permitted hours.</summary>
    public List<(int First, int Last)> StartsIn(WaterDayPhase phase) =>
        [.. phase.Spans.Where(FitsSpan)
            .Select(s => (First: (s.From + StepSeconds - 1) / StepSeconds, Last: Math.Min(s.To - Shape.Seconds, PermittedSpan.Day - 1) / StepSeconds))
            .Where(r => r.First <= r.Last)];

    private bool FitsSpan(PermittedSpan span) =>
        (span.From + StepSeconds - 1) / StepSeconds * StepSeconds + Shape.Seconds <= span.To;
}
