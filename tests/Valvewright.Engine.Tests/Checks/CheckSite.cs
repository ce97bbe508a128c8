using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Tests.Proof;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Checks;

/// <summary>A controller with four lawns and three programs, watering allowed from 20:00 to 09:00, read on Tuesday 14 July 2026 at
/// 15:20.</summary>
internal static class CheckSite
{
    public static readonly LocalDateTime At = new(2026, 7, 14, 15, 20);

    public static Profile Profile { get; } = new()
    {
        Name = "4 stations, 3 programs",
        Stations = 4,
        Programs = 3,
        StartTimesPerProgram = 6,
        DayRules = [DayRuleKind.DaysOfWeek, DayRuleKind.Interval, DayRuleKind.Odd, DayRuleKind.Even],
        LargestIntervalDays = 14,
        LargestRainHoldDays = 7,
    };

    /// <summary>No daylight saving in Arizona; 15 L/min carry one lawn of 10 L/min, not two.</summary>
    public static Site Site { get; } = Sites.Site("North", "South") with
    {
        TimeZone = "America/Phoenix",
        Supplies = [new WaterSupply(
            "main", 15, 400, new PermittedTimes([new TimeWindow(new LocalTime(20, 0), new LocalTime(9, 0))], PermittedTimes.EveryWeekday))],
        Controllers = ((ListOf<string>)["North", "South"]).Select(name => new SiteController
        {
            Name = name, Profile = Profile, Supply = "main", Zones = [Sites.Lawn(1), Sites.Lawn(2), Sites.Lawn(3), Sites.Lawn(4)],
        }).ToListOf(),
    };

    public static SiteController North => Site.Controllers[0];

    /// <summary>
    /// North: stations 1 to 3 for 10 minutes each from 05:00 on Monday, Wednesday and Friday; station 4 for 20 minutes from 22:00 every
    /// third day, next on the 15th. On from 1 March at 60 %, 100 % from 1 June, off from 1 November. South: from 02:00.
    /// </summary>
    public static Plan Plan { get; } = new(Site.Name,
    [
        new ControllerPlan("North", new Settings(
        [
            new Program('A', [new LocalTime(5, 0)], [new RunTime(1, 600), new RunTime(2, 600), new RunTime(3, 600)],
                new DaysOfWeek([IsoDayOfWeek.Monday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Friday])),
            new Program('B', [new LocalTime(22, 0)], [new RunTime(4, 1200)], new EveryNDays(3, new LocalDate(2026, 7, 15))),
        ]),
        [new Visit(new AnnualDate(3, 1), 60), new Visit(new AnnualDate(6, 1), 100), new Visit(new AnnualDate(11, 1), 0)]),
        new ControllerPlan("South", new Settings(
            [new Program('A', [new LocalTime(2, 0)], [new RunTime(1, 1200), new RunTime(2, 1200)], new DaysOfWeek(Sites.EveryDay))]), []),
    ]);

    /// <summary>Everything as planned, as a display shows it.</summary>
    public const string Sound = """
        clock Tue 15:20; 100 %; on; hold 0
        A: starts 05:00; MWF; st1=10m st2=10m st3=10m st4=0m
        B: starts 22:00; every 3 days 1 left; st1=0m st2=0m st3=0m st4=20m
        C: none
        """;

    public static CheckResult Check(string text, Plan? plan, CheckLanguage language = CheckLanguage.English, LocalDateTime? at = null) =>
        Engine.Checks.Check.Of(
            Site, North, plan, ReadingText.Parse(text, Profile, ClockStyle.Hours24).Reading, new CheckContext(at ?? At, language));

    /// <summary>The sound reading with a part exchanged.</summary>
    public static CheckResult WithPlan(string part, string instead)
    {
        Assert.Contains(part, Sound, StringComparison.Ordinal);
        return Check(Sound.Replace(part, instead, StringComparison.Ordinal), Plan);
    }
}
