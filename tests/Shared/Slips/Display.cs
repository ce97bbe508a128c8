using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Tests.Slips;

/// <summary>What the display of a controller shows that was keyed in as planned, all of it.</summary>
internal static class Display
{
    /// <summary>The whole reading at a moment of site time.</summary>
    public static Reading Of(Site site, SiteController controller, ControllerPlan plan, LocalDateTime at)
    {
        int percent = PercentOn(plan, at.Date);
        LocalDateTime clock = ClockOf(site, controller.Profile, at);
        return new Reading
        {
            Controller = controller.Name,
            ReadAt = at,
            Clock = new ClockShown(clock.TimeOfDay, clock.DayOfWeek, clock.Date),
            Percent = percent == 0 ? plan.Settings.PercentAdjust : percent,
            Off = percent == 0,
            RainHoldDays = 0,
            Programs = Enumerable.Range(0, controller.Profile.Programs)
                .Select(i => ProgramOf(controller.Profile, plan.Settings.Programs.FirstOrDefault(p => p.Letter == Profile.LetterOf(i)),
                    Profile.LetterOf(i), clock.Date))
                .ToListOf(),
        };
    }

    /// <summary>The percent that the last visit before a date left; 0: off.</summary>
    public static int PercentOn(ControllerPlan plan, LocalDate date) => plan.Visits.Count == 0
        ? plan.Settings.PercentAdjust
        : plan.Visits.Where(v => v.Date.InYear(date.Year) <= date).OrderBy(v => v.Date.InYear(date.Year)).LastOrDefault()?.Percent
            ?? plan.Visits.OrderBy(v => v.Date.InYear(2000)).Last().Percent;

    /// <summary>Site time, less daylight saving on a clock that does not know it.</summary>
    public static LocalDateTime ClockOf(Site site, Profile profile, LocalDateTime at)
    {
        Offset savings = site.Zone().AtLeniently(at).GetZoneInterval().Savings;
        return profile.ClockKnowsDaylightSaving ? at : at.PlusSeconds(-savings.Seconds);
    }

    /// <summary>Days to the next date of an interval.</summary>
    public static int LeftOf(EveryNDays rule, LocalDate date)
    {
        int left = 0;
        while (Period.DaysBetween(rule.Anchor, date.PlusDays(left)) % rule.Days != 0)
        {
            left++;
        }

        return left;
    }

    /// <summary>Water days as shown.</summary>
    public static ReadDays DaysOf(DayRule? days, LocalDate date) => days switch
    {
        DaysOfWeek week => new ReadDays(DayRuleKind.DaysOfWeek, week.Days),
        EveryNDays every => new ReadDays(DayRuleKind.Interval, [], every.Days, LeftOf(every, date)),
        OddDays => new ReadDays(DayRuleKind.Odd, []),
        EvenDays => new ReadDays(DayRuleKind.Even, []),
        _ => ReadDays.None,
    };

    private static ReadProgram ProgramOf(Profile profile, Program? program, char letter, LocalDate date) => new(letter)
    {
        StartTimes = program?.StartTimes.Order().ToListOf() ?? [],
        Days = DaysOf(program?.Days, date),
        RunTimes = program is null
            ? []
            : Enumerable.Range(1, profile.Stations)
                .Select(s => new RunTime(s, program.RunTimes.FirstOrDefault(r => r.Station == s).Seconds)).ToListOf(),
    };
}
