using NodaTime;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Programs;

namespace Valvewright.Planning.Hours;

/// <summary>Programs with their dates and start times.</summary>
internal sealed record TimedPlan(IReadOnlyList<TimedProgram> Programs, IReadOnlyList<WaterDayPhase> Rules, TimedStarts Times);

/// <summary>Dates first, then start times; where these dates leave no start times, other dates.</summary>
internal sealed class HoursSearch(
    IReadOnlyList<ControllerCase> controllers, IReadOnlyList<EarlyHours> early, PlannerOptions options, LocalDate firstDate)
{
    private const int MostPhaseTrials = 12;

    /// <summary>Start times off the quarter of an hour must bring overhead water so much nearer, weighted seconds.</summary>
    private const int WorthATighterGridSeconds = 1800;

    /// <summary>The hours for overhead water by each controller's clock.</summary>
    public IReadOnlyList<EarlyHours> Early => early;

    /// <summary>Solver work done so far, deterministic seconds.</summary>
    public double Effort { get; private set; }

    /// <summary>Whether the last search that found nothing proved that there is nothing.</summary>
    public bool IsProvenImpossible { get; private set; }

    /// <summary>Dates and start times for these programs; null when there are none. Where only that is asked, the first will do.</summary>
    public TimedPlan? Find(IReadOnlyList<ProgramDraft> drafts, double effort, CancellationToken cancel, bool onlyWhether = false)
    {
        int guard = controllers.Count > 1 ? options.GuardSeconds : 0;
        TimedProgram[] programs = [.. drafts.Select(d => new TimedProgram(d, controllers[d.Controller], early[d.Controller], guard))];
        int supply = (int)Math.Floor(controllers[0].Supply.FlowLpm * 10 + 1e-6);
        if (programs.Any(p => p.Phases.Count == 0 || p.Shape.Flow.Any(f => f.FlowTenths > supply)))
        {
            IsProvenImpossible = true;
            return null;
        }

        bool everyProof = true;
        IsProvenImpossible = false;
        PhaseModel phaseModel = new(programs, supply, controllers[0].Stored);
        for (int trial = 0; trial < MostPhaseTrials; trial++)
        {
            if (phaseModel.Solve(effort / 8, cancel, out double spent) is not { } phases)
            {
                Effort += spent;
                IsProvenImpossible = everyProof && phaseModel.IsProvenImpossible;
                return null;
            }

            Effort += spent;
            WaterDayPhase[] rules = [.. programs.Select((p, i) => p.Phases[phases[i]])];
            if (Tidiest(programs, rules, supply, effort / 2, onlyWhether || options.OnlyWhether, cancel,
                out bool isProvenImpossible) is { } found)
            {
                return new TimedPlan(programs, rules, found);
            }

            everyProof &= isProvenImpossible;
            phaseModel.Forbid(phases.Select((phase, i) => (i, phase)).Where(t => programs[t.i].Phases.Count > 1));
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
        TimedProgram[] programs = [.. drafts.Select(d => new TimedProgram(d, controllers[d.Controller], early[d.Controller], 0))];
        int[][] starts = [.. programs.Select(p => Enumerable.Range(0, p.Draft.Cycles).Select(k => k * 60).ToArray())];
        return new TimedPlan(programs, [.. programs.Select(p => p.Draft.Days.Phases[0])], new TimedStarts(starts, 0, 0, 0, false));
    }

    /// <summary>
    /// The tidiest start times: quarters of an hour and cycles together where they leave overhead water in the early hours; else what gains
    /// most. Where there are none so, it is first asked whether there are any.
    /// </summary>
    private TimedStarts? Tidiest(TimedProgram[] programs, WaterDayPhase[] rules, int supply, double effort, bool onlyWhether,
        CancellationToken cancel, out bool isProvenImpossible)
    {
        List<DateSet> dates = DatesOf(programs, rules, firstDate);
        int[] shifts = ClockShifts(programs);
        TimedStarts? best = null;
        TimedStarts? Solved(Tidiness tidiness, HoursAim aim, out bool isProof)
        {
            HoursModel model = new(programs, rules, dates, supply, shifts, tidiness);
            TimedStarts? found = model.Solve(effort, cancel, out double spent, aim);
            Effort += spent;
            isProof = model.IsProvenImpossible;
            return found;
        }

        if (onlyWhether)
        {
            return Solved(Tidiness.Least, HoursAim.Any, out isProvenImpossible);
        }

        isProvenImpossible = false;
        foreach (Tidiness tidiness in Tidiness.All.Where(t => t.Grid < programs.Max(p => p.StartSteps.Count) || t == Tidiness.Least))
        {
            if (best is not null && (best.OutsideSeconds == 0 || tidiness.Grid > 1))
            {
                break;
            }

            TimedStarts? found = Solved(tidiness, HoursAim.OutsideThenPrice, out isProvenImpossible);
            if (found is null && tidiness == Tidiness.All[0] && Solved(Tidiness.Least, HoursAim.Any, out isProvenImpossible) is null)
            {
                return null;
            }

            best = found is not null && (best is null || found.WeighedSeconds < best.WeighedSeconds - WorthATighterGridSeconds)
                ? found : best;
        }

        return best;
    }

    /// <summary>Which programs meet when each has its rule.</summary>
    public static List<DateSet> DatesOf(IReadOnlyList<TimedProgram> programs, IReadOnlyList<WaterDayPhase> rules, LocalDate firstDate) =>
        DateSets.Of([.. programs.Select((p, i) => (rules[i].Rule, p.Of.Profile, MayPassMidnight(p, rules[i])))], firstDate);

    private static bool MayPassMidnight(TimedProgram program, WaterDayPhase rule) =>
        program.StartsIn(rule).Any(r => r.Last * program.StartSteps[^1] + program.Shape.Seconds + 3600 > PermittedSpan.Day);

    /// <summary>Where clocks that know daylight saving share a supply with some that don't, they are an hour apart for part of the
    /// year.</summary>
    private static int[] ClockShifts(IReadOnlyList<TimedProgram> programs) =>
        programs.Select(p => p.Of.Profile.ClockKnowsDaylightSaving).Distinct().Count() > 1 ? [0, -3600] : [0];
}
