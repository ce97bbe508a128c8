using System.Globalization;
using NodaTime;
using Valvewright.Engine.Budget;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Ground;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Tests;
using Valvewright.Work;
using Valvewright.Work.Search;

namespace Valvewright.Bench;

/// <summary>
/// One zone per site, on every series of the reference folder: what plans of 1, 2, 4 and 12 visits apply in the years held back, next to
/// the trade's rulers, and what their low quarter gets. The first argument may name a part of a series' name, the second a part of a
/// zone's, the third the weight of unmet use.
/// </summary>
internal static class AuditorBenchmark
{
    private static readonly int[] Visits = [1, 2, 4, 12];

    private static readonly (string Name, PlantKind Kind, EmissionKind Emission, double RateMmPerHour, double Uniformity)[] Zones =
    [
        .. new[] { 0.45, 0.55, 0.65, 0.75, 0.85 }.Select(
            du => ($"turf DU {100 * du:0}", PlantKinds.Named("cool-season turf")!, EmissionKind.Rotor, 12.0, du)),
        ("shrubs drip", PlantKinds.Named("shrubs")!, EmissionKind.Drip, 7, 0.85),
        ("trees bubbler", PlantKinds.Named("trees")!, EmissionKind.Bubbler, 14, 0.85),
    ];

    public static int Run(string[] args)
    {
        double weight = args.Length > 2 ? double.Parse(args[2], CultureInfo.InvariantCulture) : 4;
        Console.WriteLine(
            "mm per year in the years held back; x: over the auditor's schedule; met: low quarter, percent; dry: longest spell, days");
        Console.WriteLine($"{"series",-12}{"zone",-14}{"min",5}{"audit",6}{"MAWA",6}{"July",6}{"month",6} | " + string
            .Join(" | ", Visits.Select(v => $"{v,2} visits    x  met dry bound")));
        foreach (SeasonSeries series in SeasonSeries.All.Where(s => args.Length == 0 || s.File.Contains(args[0], StringComparison.Ordinal)))
        {
            foreach (var zone in Zones.Where(z => args.Length < 2 || z.Name.Contains(args[1], StringComparison.Ordinal)))
            {
                Console.WriteLine($"{series.ShortName,-12}{zone.Name,-14}" +
                    Line(SiteYears.Read(
                        SiteOf(series, zone.Kind, zone.Emission, zone.RateMmPerHour, zone.Uniformity) with { UnmetUseWeight = weight })));
            }
        }

        return 0;
    }

    private static string Line(SiteYears years)
    {
        string rulers = "";
        List<string> plans = [];
        LocalDate from = years.HeldBack[^1].Last.PlusDays(1);
        foreach (int visits in Visits)
        {
            SitePlan made = SitePlan.Of(
                new PlanRequest(years, from, new SeasonOptions { Visits = visits }, HasCurve: false), (_, _) =>
                    { }, CancellationToken.None);
            ZoneProof zone = made.Proof!.Zones[0];
            double mawa = Mwelo.AllowanceL(
                years.HeldBack.Average(h => h.EtoMm.Sum()), 1, Mwelo.AdjustmentFactor(LandscapeUse.Residential));
            rulers = Text($"{zone.MinimumMm,5:0}{zone.AuditorMm,6:0}{mawa,6:0}") + string.Concat(made.Proof.Comparison.TakeLast(2)
                .Select(plain => Text($"{plain.Zones[0].AppliedMm,6:0}")));
            plans.Add(
                Text($"{zone.AppliedMm,9:0} {zone.AppliedMm / zone.AuditorMm,4:0.00} {100 * zone.UseMet,4:0} {zone.LongestDryDays,3} ")
                + Text($"{100 * (1 - (made.Season?.Gap ?? 0)),5:0}"));
        }

        return $"{rulers} | {string.Join(" | ", plans)}";
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static Site SiteOf(SeasonSeries series, PlantKind kind, EmissionKind emission, double rate, double uniformity)
    {
        Planting planting = new(
            kind.Name, PlantStage.Established,
            LandscapeCoefficient.AllYear(series.Summer == Summer.Dry ? kind.DryFactor : kind.HumidFactor),
            kind.RootDepthM, kind.AllowedDepletion) { Turf = kind.Turf };
        Zone zone = new()
        {
            Name = "Zone", Station = 1, AreaM2 = 100, Planting = planting, Soil = new Soil("loam", 170, 9, 7.6),
            Emission = new Emission(
                emission, rate, 20, FittedSpots.Of(uniformity), emission is EmissionKind.Spray or EmissionKind.Rotor ? 0.05 : 0),
        };
        Profile profile = new()
        {
            Name = "1 station, 3 programs, 4 starts", Stations = 1, Programs = 3, StartTimesPerProgram = 4, LargestIntervalDays = 30,
            DayRules = [DayRuleKind.DaysOfWeek, DayRuleKind.Odd, DayRuleKind.Even, DayRuleKind.Interval],
        };
        return new Site
        {
            Name = series.ShortName, Place = series.Place, TimeZone = "Etc/UTC",
            Supplies = [new WaterSupply("Main", 60, double.NaN, PermittedTimes.Always)],
            Weather = new WeatherSource(
                Path.Combine(Checkout.Root, "reference", "weather", series.File), null, null)
                { Station = series.Place, WindHeightM = series.WindHeightM },
            Controllers = [new SiteController { Name = "Box", Profile = profile, Supply = "Main", Zones = [zone] }],
        };
    }
}
