using Valvewright.Engine.Plans;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Hours;
using Valvewright.Planning.Programs;

namespace Valvewright.Planning;

/// <summary>Tries programs, best first, until some can be given dates and start times.</summary>
internal sealed class Trials(
    ControllerCase[] controllers, HoursSearch hours, PlannerOptions options, Action<PlanStep> begin, CancellationToken cancel)
{
    private double effort;

    /// <summary>False once programs were ruled out for lack of effort rather than by proof: then only the first bounds hold.</summary>
    private bool everyCutIsProven = true;
    private ProgramSearch? first;

    /// <summary>Each controller's own best first: if they can be timed together nothing is better. Else all of the supply at once, without
    /// what failed.</summary>
    public SupplyOutcome Run(bool withLesser)
    {
        begin(PlanStep.Programs);
        ProgramSearch?[] alone = new ProgramSearch?[controllers.Length];
        Parallel.For(0, controllers.Length,
            new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount, CancellationToken = cancel }, c =>
        {
            ProgramModel own = new([controllers[c]], copies: 1, withLesser, tidy: options.OnlyWhether ? null : [hours.Early[c]]);
            alone[c] = ProgramSearch.Run(own, options, options.EffortSeconds / controllers.Length, cancel, out _);
        });
        ProgramSearch[] each = [.. alone.OfType<ProgramSearch>()];
        effort += each.Sum(s => s.Effort);
        List<ProgramDraft>? failed = null;
        if (each.Length == controllers.Length)
        {
            ProgramSearch together = ProgramSearch.Together(each);
            if (Timed(together) is { } timed)
            {
                return Planned(together, timed, 1);
            }

            failed = Culprits(together.Programs);
        }

        ProgramModel model = new(controllers, copies: 2, withLesser);
        for (int trial = 2; trial <= options.MostProgramTrials; trial++)
        {
            if (failed is not null)
            {
                model.Forbid(failed);
            }

            begin(PlanStep.ProgramsAgain);
            if (ProgramSearch.Run(model, options, options.EffortSeconds, cancel, out bool isProof) is not { } programs)
            {
                return Nothing(isProof && everyCutIsProven ? PlanStatus.Impossible : PlanStatus.NotFound, trial);
            }

            effort += programs.Effort;
            if (Timed(programs) is { } timed)
            {
                return Planned(programs, timed, trial);
            }

            failed = Culprits(programs.Programs);
        }

        return Nothing(PlanStatus.NotFound, options.MostProgramTrials);
    }

    private TimedPlan? Timed(ProgramSearch programs)
    {
        first ??= programs;
        if (options.WithoutHours)
        {
            return hours.AnyHours(programs.Programs);
        }

        begin(PlanStep.Hours);
        return hours.Find(programs.Programs, options.EffortSeconds, cancel);
    }

    /// <summary>Programs that cannot be timed even without the others.</summary>
    private List<ProgramDraft> Culprits(List<ProgramDraft> programs)
    {
        List<ProgramDraft> culprits = programs;
        bool proven = hours.IsProvenImpossible;
        foreach (ProgramDraft program in programs)
        {
            List<ProgramDraft> fewer = [.. culprits.Where(p => p != program)];
            if (fewer.Count > 0 && hours.Find(fewer, options.EffortSeconds / 8, cancel, onlyWhether: true) is null
                && (hours.IsProvenImpossible || !proven))
            {
                culprits = fewer;
            }
        }

        everyCutIsProven &= proven;
        return culprits;
    }

    private SupplyOutcome Nothing(PlanStatus status, int trials) => new(status, null, [], [], [], effort + hours.Effort, trials);

    private SupplyOutcome Planned(ProgramSearch programs, TimedPlan timed, int trials)
    {
        List<ControllerPlan> plans = [];
        List<ZoneChosen> zones = [];
        for (int c = 0; c < controllers.Length; c++)
        {
            plans.Add(WriteUp.ControllerPlan(controllers[c], c, timed, zones));
        }

        ProgramSearch bound = everyCutIsProven ? programs : first!;
        AimReached[] levels =
        [
            new("use that must be met and is not", "liters per year", programs.Short.Value, bound.Short.Bound),
            new("water, unmet use and pulses", "liters per year", programs.Cost.Value, bound.Cost.Bound),
            new("settings", "settings to enter", programs.Settings.Value, bound.Settings.Bound),
            new("overhead water outside the hours before sunrise", "weighted minutes", timed.Times.WeighedSeconds / 60.0,
                timed.Times.BoundSeconds / 60.0),
        ];
        bool proven = everyCutIsProven && programs.Short.IsProven && programs.Cost.IsProven && programs.Settings.IsProven
            && timed.Times.IsProven;
        return new SupplyOutcome(
            proven ? PlanStatus.Proven : PlanStatus.WithinGap, plans, levels, zones, [], effort + hours.Effort, trials);
    }
}
