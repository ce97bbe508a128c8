using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Ground;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Planning.Tests;

/// <summary>Small invented sites and climates.</summary>
internal static class TestSites
{
    public static readonly ListOf<DayRuleKind> EveryRule =
        [DayRuleKind.DaysOfWeek, DayRuleKind.Odd, DayRuleKind.Even, DayRuleKind.Interval];

    public static Profile Profile(
        int stations = 4, int programs = 2, int starts = 4, ListOf<DayRuleKind>? rules = null, int interval = 14, int step = 5) => new()
    {
        Name = $"{stations} stations, {programs} programs, {starts} starts",
        Stations = stations,
        Programs = programs,
        StartTimesPerProgram = starts,
        StartStepMinutes = step,
        DayRules = rules ?? EveryRule,
        LargestIntervalDays = interval,
    };

    public static Zone Zone(
        int station, double flowLpm = 20, double rateMmPerHour = 12, double rootDepthM = 0.3, double coefficient = 0.8,
            double depletion = 0.5,
        double intakeMmPerHour = 15, double areaM2 = 100, PlantStage stage = PlantStage.Established,
            EmissionKind kind = EmissionKind.Rotor) => new()
        {
            Name = $"Zone {station}",
            Station = station,
            AreaM2 = areaM2,
            Planting = new Planting("plants", stage, [.. Enumerable.Repeat(coefficient, 12)], rootDepthM, depletion),
            Soil = new Soil("loam", 150, intakeMmPerHour, 5),
            Emission = new Emission(kind, rateMmPerHour, flowLpm, new SpotShares([0.8, 1.0, 1.2], [0.3, 0.4, 0.3], "three spots")),
        };

    public static PermittedTimes Night(int fromHour = 21, int toHour = 6) =>
        new([new TimeWindow(new LocalTime(fromHour, 0), new LocalTime(toHour, 0))], PermittedTimes.EveryWeekday);

    public static Site Site(double flowLpm, PermittedTimes permitted, params SiteController[] controllers) => new()
    {
        Name = "Test site",
        Place = new Place(40, 0, 100),
        TimeZone = "Etc/UTC",
        Supplies = [new WaterSupply("Main", flowLpm, 300, permitted)],
        Controllers = [.. controllers],
    };

    public static Site WithPermitted(this Site site, PermittedTimes permitted) =>
        site with { Supplies = [.. site.Supplies.Select(s => s with { Permitted = permitted })] };

    public static SiteController Controller(string name, Profile profile, params Zone[] zones) =>
        new() { Name = name, Profile = profile, Supply = "Main", Zones = [.. zones] };

    /// <summary>Dry summers: ETo swings between 1 and 7 mm over the year, rain falls now and then, mostly in winter.</summary>
    public static ListOf<Climate> DryYears(int years = 3, int seed = 1)
    {
        Random random = new(seed);
        List<Climate> all = [];
        for (int year = 0; year < years; year++)
        {
            LocalDate first = new(2010 + year, 1, 1);
            int days = first.Calendar.GetDaysInYear(first.Year);
            double[] eto = new double[days], rain = new double[days];
            for (int day = 0; day < days; day++)
            {
                double season = Math.Sin(Math.PI * (day + 10) / 376);
                eto[day] = Math.Max(0.3, 1 + 6 * season * season + (random.NextDouble() - 0.5));
                rain[day] = random.NextDouble() < 0.25 * (1 - season) ? -8 * Math.Log(1 - random.NextDouble()) : 0;
            }

            all.Add(new Climate(first, eto, rain));
        }

        return [.. all];
    }
}
