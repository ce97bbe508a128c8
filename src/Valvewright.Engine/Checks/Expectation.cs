using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks;

/// <summary>What a controller should hold by the plan, and what it holds as far as it was read.</summary>
internal static class Expectation
{
    /// <summary>What the plan leaves in the controller on a date.</summary>
    public static AsFound Of(ControllerPlan plan, LocalDate date) => new(plan.SettingsOn(date), Off: PercentOn(plan, date) == 0);

    /// <summary>Percent that the plan leaves on a date; 0 means off.</summary>
    public static int PercentOn(ControllerPlan plan, LocalDate date) => Spell.Of(plan, date, date).First().Percent;

    /// <summary>What was read, with what was not read filled from what is expected; without a plan what was not read stays empty.</summary>
    /// <param name="reading">The reading.</param>
    /// <param name="expected">By the plan; empty without one.</param>
    /// <param name="controllerDate">The date that the controller's own calendar shows.</param>
    /// <param name="rightDate">The date that it should show.</param>
    /// <param name="clockShows">What the clock shows; null: right.</param>
    public static AsFound Found(Reading reading, AsFound expected, LocalDate controllerDate, LocalDate rightDate, LocalDateTime? clockShows)
    {
        AsFound found = expected with
        {
            Off = reading.Off ?? expected.Off,
            RainHoldDays = Math.Clamp(reading.RainHoldDays ?? 0, 0, 3650),
            ClockShows = clockShows,
            Settings = expected.Settings with { PercentAdjust = reading.Percent ?? expected.Settings.PercentAdjust },
        };
        foreach (ReadProgram read in reading.Programs)
        {
            Program before = found.ProgramOf(read.Letter);
            found = found.With(new Program(
                read.Letter,
                read.StartTimes ?? before.StartTimes,
                read.RunTimes is { } runs ? Merged(runs, before.RunTimes) : before.RunTimes,
                read.Days is { } days ? Rule(days, before.Days, controllerDate, rightDate) : before.Days));
        }

        return found;
    }

    /// <summary>Watering days as a rule.</summary>
    private static DayRule? Rule(ReadDays days, DayRule? expected, LocalDate controllerDate, LocalDate rightDate) => days.Kind switch
    {
        DayRuleKind.DaysOfWeek => new DaysOfWeek(days.Weekdays),
        DayRuleKind.Odd => new OddDays(),
        DayRuleKind.Even => new EvenDays(),
        DayRuleKind.Interval => Interval(days, expected as EveryNDays, controllerDate, rightDate),
        _ => null,
    };

    /// <remarks>
    /// Some controllers count days left, others count from a date: where the clock shows another day, a count that is right by either
    /// calendar is as planned, and only the clock is to blame.
    /// </remarks>
    private static EveryNDays Interval(ReadDays days, EveryNDays? expected, LocalDate today, LocalDate rightDate)
    {
        int n = Math.Max(1, days.IntervalDays ?? expected?.Days ?? 1);
        if (expected?.Days == n && days.Next is null
            && (days.DaysLeft is not { } shown || shown == DaysLeft(expected, today) || shown == DaysLeft(expected, rightDate)))
        {
            return expected;
        }

        return new EveryNDays(n, days.Next ?? today.PlusDays(Math.Clamp(days.DaysLeft ?? 0, 0, 400)));
    }

    /// <summary>A station that was not spoken of was not read, unless "nothing there" was read.</summary>
    private static ListOf<RunTime> Merged(ListOf<RunTime> read, ListOf<RunTime> expected) => read.Count == 0
        ? []
        : read.Concat(expected).DistinctBy(r => r.Station).Where(r => r.Seconds > 0).OrderBy(r => r.Station).ToListOf();

    /// <summary>Days until an interval waters next, by the controller's calendar.</summary>
    public static int DaysLeft(EveryNDays rule, LocalDate date)
    {
        int since = Period.DaysBetween(rule.Anchor, date) % rule.Days;
        return since == 0 ? 0 : since > 0 ? rule.Days - since : -since;
    }

    /// <summary>Whether a program can run at all.</summary>
    public static bool IsActive(Program program) =>
        program.StartTimes.Count > 0 && program.RunTimes.Any(r => r.Seconds > 0)
            && program.Days is not (null or DaysOfWeek { Days.Count: 0 });

    /// <summary>Stations with a zone.</summary>
    public static IEnumerable<int> Wired(SiteController controller) => controller.Zones.Select(z => z.Station).Distinct().Order();
}
