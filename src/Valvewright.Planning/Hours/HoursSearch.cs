using NodaTime;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Programs;

namespace Valvewright.Planning.Hours;

/// <summary>Programs with their dates and start times.</summary>
internal sealed record TimedPlan(IReadOnlyList<TimedProgram> Programs, IReadOnlyList<WaterDayPhase> Rules, int[][] Starts, long SpanSeconds, long BoundSeconds, bool IsProven);

/// <summary>Dates first, then start times; where these dates leave no start times, other dates.</summary>
internal sealed class HoursSearch(IReadOnlyList<ControllerCase> controllers, PlannerOptions options, LocalDate firstDate, int dawnSeconds)
{
    private const int MostPhaseTrials = 12;

    /// <summary>Solver work done so far, deterministic seconds.</summary>
    public double Effort { get; private set; }

    /// <summary>Whether the last search that found nothing proved that there is nothing.</summary>
    public bool IsProvenImpossible { get; private set; }

    /// <summary>Dates and start times for these programs; null when there are none.</summary>
    public TimedPlan? Find(IReadOnlyList<ProgramDraft> drafts, double effort, CancellationToken cancel)
    {
        int guard = controllers.Count > 1 ? options.GuardSeconds : 0;
        TimedProgram[] programs = [.. drafts.Select(d => new TimedProgram(d, controllers[d.Controller], guard))];
        int supply = (int)Math.Floor(controllers[0].Supply.FlowLpm * 10 + 1e-6);
        if (programs.Any(p => p.Phases.Count == 0 || p.Shape.Flow.Any(f => f.FlowTenths > supply)))
        {
            IsProvenImpossible = true;
            return null;
        }

        bool everyProof = true;
        IsProvenImpossible = false;
        PhaseModel phaseModel = new(programs, supply);
        for (int trial = 0; trial < MostPhaseTrials; trial++)
        {
            if (phaseModel.Solve(effort / 8, cancel, out double spent) is not { } chosen)
            {
                Effort += spent;
                IsProvenImpossible = everyProof && phaseModel.IsProvenImpossible;
                return null;
            }

            Effort += spent;
            WaterDayPhase[] rules = [.. programs.Select((p, i) => p.Phases[chosen.Phases[i]])];
            List<DateSet> dates = DatesOf(programs, rules, firstDate);
            HoursModel hours = new(programs, rules, dates, supply, dawnSeconds, ClockShifts(programs));
            TimedSpan? found = hours.Solve(effort / 2, cancel, out spent, options.OnlyWhether ? HoursAim.Any : HoursAim.SpanThenDistance);
            Effort += spent;
            if (found is { } f)
            {
                return new TimedPlan(programs, rules, f.Starts, f.Span, f.Bound, f.IsProven);
            }

            everyProof &= hours.IsProvenImpossible;
            phaseModel.Forbid(chosen.Phases.Select((phase, i) => (i, phase)).Where(t => programs[t.i].Phases.Count > 1));
            if (programs.All(p => p.Phases.Count == 1))
            {
                IsProvenImpossible = everyProof;
                return null;
            }
        }

        return null;
    }

    /// <summary>The programs on their first dates, one start after the other: enough to say how much water they give.</summary>
    public TimedPlan AnyHours(IReadOnlyList<ProgramDraft> drafts)
    {
        TimedProgram[] programs = [.. drafts.Select(d => new TimedProgram(d, controllers[d.Controller], 0))];
        return new TimedPlan(
            programs, [.. programs.Select(p => p.Draft.Days.Phases[0])], [.. programs.Select(p => Enumerable.Range(0, p.Draft.Cycles).Select(k => k * 60).ToArray())], 0, 0, false);
    }

    /// <summary>Which programs meet when each has its rule.</summary>
    public static List<DateSet> DatesOf(IReadOnlyList<TimedProgram> programs, IReadOnlyList<WaterDayPhase> rules, LocalDate firstDate) =>
        DateSets.Of([.. programs.Select((p, i) => (rules[i].Rule, p.Of.Profile, MayPassMidnight(p, rules[i])))], firstDate);

    private static bool MayPassMidnight(TimedProgram program, WaterDayPhase rule) =>
        program.StartsIn(rule).Any(r => r.Last * program.StepSeconds + program.Shape.Seconds + 3600 > PermittedSpan.Day);

    /// <summary>Where clocks that know daylight saving share a supply with some that don't, they are an hour apart for part of the year.</summary>
    private static int[] ClockShifts(IReadOnlyList<TimedProgram> programs) =>
        programs.Select(p => p.Of.Profile.ClockKnowsDaylightSaving).Distinct().Count() > 1 ? [0, -3600] : [0];
}
