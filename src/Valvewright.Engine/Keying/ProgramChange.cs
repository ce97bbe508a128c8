using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Keying;

/// <summary>What to set to turn one program into another; what stays is left out.</summary>
/// <param name="Letter">The program.</param>
/// <param name="Days">The new watering days; null where they stay.</param>
/// <param name="StartTimes">All start times that it then has, none where they are cleared; null where they stay.</param>
/// <param name="RunTimes">Stations whose run time changes, with the new one, 0 where it is cleared.</param>
/// <param name="Settings">How many settings that is (<see cref="Between"/>).</param>
public sealed record ProgramChange(char Letter, DayRule? Days, ListOf<LocalTime>? StartTimes, ListOf<RunTime> RunTimes, int Settings)
{
    /// <summary>The changes from one set of programs to another, by letter.</summary>
    /// <remarks>
    /// Settings are counted as they are set: every start time that is set, changed or cleared; every run time; every day of the week that
    /// is switched on or off; an interval, and the date that it counts from, each; another kind of watering days is one more.
    /// </remarks>
    public static ListOf<ProgramChange> Between(ListOf<Program> before, ListOf<Program> after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        return before.Concat(after).Select(p => p.Letter).Distinct().Order()
            .Select(l => Of(before.FirstOrDefault(p => p.Letter == l) ?? Empty(l), after.FirstOrDefault(p => p.Letter == l) ?? Empty(l)))
            .Where(c => c.Settings > 0)
            .ToListOf();
    }

    /// <summary>What is to be set at each visit of a plan beside the percent, in the order of its visits.</summary>
    public static ListOf<ListOf<ProgramChange>> ByVisit(ControllerPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return Enumerable.Range(0, plan.Visits.Count)
            .Select(v => Between(plan.ProgramsAfter((v + plan.Visits.Count - 1) % plan.Visits.Count), plan.ProgramsAfter(v)))
            .ToListOf();
    }

    private static Program Empty(char letter) => new(letter, [], [], null);

    private static ProgramChange Of(Program before, Program after)
    {
        LocalTime[] was = [.. before.StartTimes.Distinct().Order()], starts = [.. after.StartTimes.Distinct().Order()];
        RunTime[] runs =
        [
            .. before.RunTimes.Concat(after.RunTimes).Select(r => r.Station).Distinct().Order()
                .Where(s => SecondsOf(before, s) != SecondsOf(after, s))
                .Select(s => new RunTime(s, SecondsOf(after, s))),
        ];
        int common = was.Intersect(starts).Count(), days = KeysOf(before.Days, after.Days);
        return new ProgramChange(
            after.Letter,
            days > 0 ? after.Days ?? new DaysOfWeek([]) : null,
            was.SequenceEqual(starts) ? null : starts.ToListOf(),
            [.. runs],
            days + Math.Max(was.Length - common, starts.Length - common) + runs.Length);
    }

    private static int SecondsOf(Program program, int station) => program.RunTimes.Where(r => r.Station == station).Sum(r => r.Seconds);

    private static int KeysOf(DayRule? before, DayRule? after)
    {
        if (Equals(before, after))
        {
            return 0;
        }

        return (before, after) switch
        {
            (DaysOfWeek was, DaysOfWeek now) => was.Days.Except(now.Days).Concat(now.Days.Except(was.Days)).Count(),
            (EveryNDays was, EveryNDays now) => (was.Days == now.Days ? 0 : 1) + (SamePhase(was, now) ? 0 : 1),
            (_, EveryNDays) => 3,
            (_, DaysOfWeek now) => 1 + now.Days.Count,
            _ => 1,
        };
    }

    /// <summary>Another interval is counted again, even from the same date: its display shows the days left.</summary>
    private static bool SamePhase(EveryNDays was, EveryNDays now) =>
        was.Days == now.Days && Period.DaysBetween(was.Anchor, now.Anchor) % now.Days == 0;
}
