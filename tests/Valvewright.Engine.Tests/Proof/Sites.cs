using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Ground;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Tests.Proof;

/// <summary>Small sites with round numbers, for sums that can be done by hand.</summary>
internal static class Sites
{
    /// <summary>The calendar of these tests begins here, in standard time.</summary>
    public static readonly LocalDate From = new(2026, 1, 1);

    /// <summary>12 mm/h and 10 L/min on 50 m2; KL 1; TAW 60 mm, RAW 30 mm; intake 15 mm/h, 6 mm may stand.</summary>
    public static Zone Lawn(int station) => new()
    {
        Name = $"Lawn {station}",
        Station = station,
        AreaM2 = 50,
        Planting = new Planting("turf", PlantStage.Established, [1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1], 0.5, 0.5),
        Soil = new Soil("loam", 120, 15, 6),
        Emission = new Emission(EmissionKind.Spray, 12, 10, SpotShares.Even),
    };

    public static Profile Profile => new()
    {
        Name = "4 stations, 2 programs",
        Stations = 4,
        Programs = 2,
        StartTimesPerProgram = 3,
        StartStepMinutes = 5,
        DayRules = [DayRuleKind.DaysOfWeek, DayRuleKind.Interval, DayRuleKind.Even],
        LargestIntervalDays = 7,
    };

    /// <summary>One or more controllers with two lawns each on one supply of 20 L/min, 02:00 to 08:00 every day, Pacific time.</summary>
    public static Site Site(params string[] controllers) => new()
    {
        Name = "Test green",
        Place = new Place(38.5, -121.7, 20),
        TimeZone = "America/Los_Angeles",
        Supplies = [new WaterSupply(
            "main", 20, 400, new PermittedTimes([new TimeWindow(new LocalTime(2, 0), new LocalTime(8, 0))], PermittedTimes.EveryWeekday))],
        Controllers = controllers
            .Select(c => new SiteController { Name = c, Profile = Profile, Supply = "main", Zones = [Lawn(1), Lawn(2)] }).ToListOf(),
    };

    public static Site With(this Site site, Func<SiteController, SiteController> change) =>
        site with { Controllers = site.Controllers.Select(change).ToListOf() };

    public static Site WithZones(this Site site, Func<Zone, Zone> change) =>
        site.With(c => c with { Zones = c.Zones.Select(change).ToListOf() });

    public static Site WithSupply(this Site site, Func<WaterSupply, WaterSupply> change) =>
        site with { Supplies = site.Supplies.Select(change).ToListOf() };

    public static ListOf<IsoDayOfWeek> EveryDay => PermittedTimes.EveryWeekday;

    /// <summary>Both stations for the minutes given, daily at 03:00 by the clock.</summary>
    public static Program Daily(char letter, int minutes, params LocalTime[] starts) =>
        new(letter, starts.Length == 0 ? [new LocalTime(3, 0)] : starts.ToListOf(),
            [new RunTime(1, 60 * minutes), new RunTime(2, 60 * minutes)], new DaysOfWeek(EveryDay));

    public static Plan Plan(Site site, params Program[] programs) =>
        new(site.Name, site.Controllers.Select(c => new ControllerPlan(c.Name, new Settings(programs.ToListOf()), [])).ToListOf());

    /// <summary>A year of the same weather every day.</summary>
    public static Climate Steady(double etoMm, double rainMm, int year = 2023) =>
        new(new LocalDate(year, 1, 1), [.. Enumerable.Repeat(etoMm, 365)], [.. Enumerable.Repeat(rainMm, 365)]);

    public static ProofReport Prove(Site site, Plan plan, Climate? climate = null) =>
        Proofs.Replay(site, plan, [climate ?? Steady(4, 0)], new ProofOptions(From, []));
}
