using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;

namespace Valvewright.Files.Tests.Timelines;

/// <summary>A site with two controllers on one supply, made up for these tests, with names that try to break out of a file.</summary>
internal static class Sites
{
    /// <summary>A comma, a semicolon, quotes, a backslash, a line break that would begin a new event, letters of two and four
    /// octets.</summary>
    public const string HostileName = "Rosé; \"beds\", \\n\r\nBEGIN:VEVENT\r\nSUMMARY:x \U0001F331 and a name that goes on well past the " +
        "seventy-five octets of a line éééééééééééééééééé";

    public static Site Of(string timeZone, bool knowsDaylightSaving) => new()
    {
        Name = "Two Beds",
        Place = new Place(40, -3, 600),
        TimeZone = timeZone,
        Supplies = [new WaterSupply("Tank", 50, double.NaN, PermittedTimes.Always)],
        Controllers = [Controller("East", "Lawn", knowsDaylightSaving), Controller("West", HostileName, knowsDaylightSaving)],
    };

    public static Plan Plan { get; } = new(
        "Two Beds",
        [
            new ControllerPlan("East", East,
                [new Visit(new AnnualDate(3, 15), 60), new Visit(new AnnualDate(5, 20), 100), new Visit(new AnnualDate(11, 10), 0)]),
            new ControllerPlan("West", West, []),
        ]);

    /// <summary>Starts in the hours that clock changes skip and double, before midnight, on every kind of day.</summary>
    private static Settings East => new(
        [
            new Program('A', [new LocalTime(2, 30), new LocalTime(5, 0)], [new RunTime(1, 600), new RunTime(2, 900)],
                new DaysOfWeek([IsoDayOfWeek.Monday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Sunday])),
            new Program('B', [new LocalTime(23, 50)], [new RunTime(3, 3600)], new EveryNDays(4, new LocalDate(2026, 1, 3))),
        ]);

    private static Settings West => new(
        [
            new Program('A', [new LocalTime(1, 0)], [new RunTime(1, 1200)], new OddDays()),
            new Program('B', [new LocalTime(2, 0)], [new RunTime(2, 1230)], new EvenDays()),
        ]);

    private static SiteController Controller(string name, string zone, bool knowsDaylightSaving) => new()
    {
        Name = name,
        Supply = "Tank",
        Profile = new Profile
        {
            Name = "4 stations, 2 programs",
            Stations = 4,
            Programs = 2,
            StartTimesPerProgram = 4,
            DayRules = [DayRuleKind.DaysOfWeek, DayRuleKind.Odd, DayRuleKind.Even, DayRuleKind.Interval],
            LargestIntervalDays = 15,
            ClockKnowsDaylightSaving = knowsDaylightSaving,
        },
        Zones = [.. Enumerable.Range(1, 3).Select(s => Zone(zone, s))],
    };

    private static Zone Zone(string name, int station) => Cards.CardSites.Zone(station, name);
}
