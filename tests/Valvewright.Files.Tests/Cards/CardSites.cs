using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Ground;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Files.Tests.Cards;

/// <summary>Sites and plans to make cards of, of our own invention.</summary>
internal static class CardSites
{
    public static readonly LocalDate Day = new(2026, 7, 1);

    public static Profile Profile(int stations, int programs, int starts) => new()
    {
        Name = $"{stations} stations, {programs} programs",
        Stations = stations,
        Programs = programs,
        StartTimesPerProgram = starts,
        DayRules = [DayRuleKind.DaysOfWeek, DayRuleKind.Odd, DayRuleKind.Even, DayRuleKind.Interval],
        LargestIntervalDays = 30,
    };

    public static Zone Zone(int station, string name, double flowLpm = 20) => new()
    {
        Name = name,
        Station = station,
        AreaM2 = 100,
        Planting = new Planting(name, PlantStage.Established, [.. Enumerable.Repeat(0.7, 12)], 0.3, 0.5),
        Soil = new Soil("loam", 150, 12, 5),
        Emission = new Emission(EmissionKind.Spray, flowLpm * 60 / 100, flowLpm, SpotShares.Even),
    };

    public static Site Site(Profile profile, IEnumerable<Zone> zones, string zone = "America/Denver", string controller = "North gate",
        string name = "Elm Hollow cemetery") => new()
    {
        Name = name,
        Place = new Place(40, -105, 1600),
        TimeZone = zone,
        Supplies = [new WaterSupply("Main", 60, double.NaN, PermittedTimes.Always)],
        Controllers = [new SiteController { Name = controller, Profile = profile, Supply = "Main", Zones = zones.ToListOf() }],
    };

    public static (Site Site, Plan Plan) Typical()
    {
        Site site = Site(Profile(6, 3, 4),
            [Zone(1, "Rose bed", 12), Zone(2, "Front lawn", 30), Zone(3, "Back lawn", 28), Zone(4, "Old lindens", 10)]);
        Settings settings = new(
        [
            new Program('A', [new LocalTime(4, 0), new LocalTime(5, 30)], [new RunTime(1, 720), new RunTime(2, 1200), new RunTime(3, 1080)],
                new DaysOfWeek([IsoDayOfWeek.Monday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Friday])),
            new Program('B', [new LocalTime(21, 0)], [new RunTime(4, 5400)], new EveryNDays(9, new LocalDate(2026, 7, 4))),
        ]);
        ListOf<Visit> visits = [
            new(new AnnualDate(4, 15), 60), new(new AnnualDate(6, 10), 100), new(new AnnualDate(9, 1), 70), new(new AnnualDate(10, 20), 0)];
        return (site, new Plan(site.Name, [new ControllerPlan("North gate", settings, visits)]));
    }

    public static (Site Site, Plan Plan) Small()
    {
        Site site = Site(Profile(1, 1, 1) with { Percent = PercentRange.None, RunTimeLimitSeconds = 5940 }, [Zone(1, "Median oaks", 15)],
            "America/Phoenix", "Median 3", "Arroyo Road");
        Settings settings = new(
            [new Program('A', [new LocalTime(2, 0)], [new RunTime(1, 2700)], new EveryNDays(5, new LocalDate(2026, 7, 1)))]);
        return (site with { Units = UnitSystem.UsCustomary, Clock = ClockStyle.Hours12 },
            new Plan(site.Name, [new ControllerPlan("Median 3", settings, [])]));
    }

    public static (Site Site, Plan Plan) Largest(ClockStyle clock = ClockStyle.Hours12)
    {
        Profile profile = Profile(12, 4, 8) with { RunTimeStepSeconds = 30 };
        Site site = Site(profile, Enumerable.Range(1, 12).Select(s => Zone(s, $"Terrace {s} long border, east side", 11 + s)),
            "Europe/Madrid", "Upper terraces", "Jardín de la Cañada");
        DayRule[] rules =
        [
            new DaysOfWeek([IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday,
                IsoDayOfWeek.Saturday]),
            new OddDays(), new EvenDays(), new EveryNDays(28, new LocalDate(2026, 7, 23)),
        ];
        Settings settings = new([.. Enumerable.Range(0, 4).Select(p => new Program(
            Engine.Controllers.Profile.LetterOf(p),
            [.. Enumerable.Range(0, 8).Select(i => new LocalTime(10 + i, p * 15, 0))],
            [.. Enumerable.Range(1, 12).Select(s => new RunTime(s, 30 * (1 + (s + p) % 3)))],
            rules[p]))]);
        ListOf<Visit> visits = [.. Enumerable.Range(1, 12)
            .Select(m => new Visit(new AnnualDate(m, 10 + m), m is 1 or 2 or 12 ? 0 : 20 + 10 * Math.Min(m, 14 - m)))];
        return (site with { Clock = clock, Units = UnitSystem.UsCustomary },
            new Plan(site.Name, [new ControllerPlan("Upper terraces", settings, visits)]));
    }
}
