using System.Diagnostics;
using System.Globalization;
using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Ground;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using KeyedProgram = Valvewright.Engine.Controllers.Program;
using Valvewright.Tests;

namespace Valvewright.Bench;

/// <summary>
/// Four visits a year against common practice, on years that the season was not chosen with: three plantings on every series.
/// </summary>
/// <remarks>
/// The practices are those of the proof (<see cref="CommonPractice"/>): a July setting kept all year, and a monthly percent table from
/// mean ETo, both switched off when the season is.
/// </remarks>
internal static class SeasonBenchmark
{
    private const string Usage = "season [--visits N] [--stress-weight MM] [FILE --place LAT,LON,ELEVATION [--wind-height M] [--humid]]";

    public static int Run(string[] args)
    {
        int visits = 4;
        double weight = SeasonOptions.UsualStressWeightMm;
        List<SeasonSeries> series = [];
        string? file = null;
        Place? place = null;
        double windHeight = 2;
        Summer summer = Summer.Dry;
        bool nearBound = false;
        for (int i = 0; i < args.Length; i++)
        {
            string Value() => ++i < args.Length ? args[i] : throw new ArgumentException($"{args[i - 1]} needs a value: {Usage}");
            switch (args[i])
            {
                case "--visits": visits = int.Parse(Value()); break;
                case "--stress-weight": weight = double.Parse(Value(), CultureInfo.InvariantCulture); break;
                case "--place": double[] p = [.. Value().Split(',').Select(v => double.Parse(v, CultureInfo.InvariantCulture))]; place = new Place(p[0], p[1], p[2]); break;
                case "--wind-height": windHeight = double.Parse(Value(), CultureInfo.InvariantCulture); break;
                case "--near-bound": nearBound = true; break;
                case "--humid": summer = Summer.Humid; break;
                default: file = args[i]; break;
            }
        }

        string folder = Path.Combine(Checkout.Root, "reference", "weather");
        if (file is not null)
        {
            series.Add(new SeasonSeries(Path.GetFullPath(file), place ?? throw new ArgumentException($"A file needs its place: {Usage}"), windHeight, summer));
        }
        else
        {
            series.AddRange(SeasonSeries.All);
        }

        Console.WriteLine($"{visits} visits a year; one stress day weighs {weight:0} mm; figures are of years not seen, m3 and days a year");
        Console.WriteLine($"{"series",-26}{"planting",-17}{"years",6}{"least",7} |{"water",7}{"ratio",6}{"stress",7} |{"monthly",8}{"ratio",6}{"stress",7} |{"July",7}{"stress",7} |{"saved",6}{"gap",6}{"s",5}");
        foreach (SeasonSeries one in series)
        {
            BuiltClimate built = one.Read(folder);
            YearSplit split = built.Split(one.Place.LatitudeDeg);
            Climate[] training = [.. split.Training.Select(y => y.Of(built.Climate))], heldBack = [.. split.HeldBack.Select(y => y.Of(built.Climate))];
            foreach (string planting in (string[])["lawn", "shrubs", "lawn on sand"])
            {
                Row(one, planting, training, heldBack, new SeasonOptions { Visits = visits, StressWeightMm = weight, NearBound = nearBound });
            }
        }

        return 0;
    }

    private static void Row(SeasonSeries series, string planting, Climate[] training, Climate[] heldBack, SeasonOptions options)
    {
        Site site = SiteOf(series, planting);
        Plan plan = PlanOf(site, training);
        Stopwatch watch = Stopwatch.StartNew();
        SeasonPlan season = SeasonPlanner.Of(site, plan, training, options);
        double seconds = watch.Elapsed.TotalSeconds;
        ProofReport proof = Proofs.Replay(site, season.ApplyTo(plan), heldBack, new ProofOptions(new LocalDate(2026, 1, 1), training));
        Practice ours = proof.Comparison[0], july = proof.Comparison[1], monthly = proof.Comparison[2];
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{Path.GetFileNameWithoutExtension(series.File)[..Math.Min(25, Path.GetFileNameWithoutExtension(series.File).Length)],-26}{planting,-17}{training.Length,3}/{heldBack.Length,-2}{ours.LeastCubicMetresPerYear,7:0.0} |{ours.CubicMetresPerYear,7:0.0}{ours.WaterRatio,6:0.00}{ours.StressDays,7:0.00} |{monthly.CubicMetresPerYear,8:0.0}{monthly.WaterRatio,6:0.00}{monthly.StressDays,7:0.00} |{july.CubicMetresPerYear,7:0.0}{july.StressDays,7:0.00} |{1 - ours.CubicMetresPerYear / monthly.CubicMetresPerYear,6:0%}{season.Gap,6:0.0%}{seconds,5:0.0}"));
        Console.WriteLine($"    {string.Join(", ", season.Dates.Select((d, v) => $"{d.Day}.{d.Month}: {season.Controllers[0].Percents[v]} %"))}; training {season.WaterM3:0.0} m3, stress {season.StressDays:0.00}");
    }

    private static Site SiteOf(SeasonSeries series, string planting)
    {
        bool drip = planting == "shrubs";
        PlantKind kind = PlantKinds.Named(drip ? "shrubs" : "cool-season turf")!;
        double rate = drip ? 8 : 12;
        ListOf<double> coefficient = drip ? LandscapeCoefficient.AllYear(0.5) : LandscapeCoefficient.TurfByMonth(TurfSeason.Cool);
        Soil soil = SoilTextures.At(planting == "lawn on sand" ? "loamy sand" : "loam", 2);
        Zone zone = new()
        {
            Name = planting,
            Station = 1,
            AreaM2 = 100,
            Planting = new Planting(planting, PlantStage.Established, coefficient, kind.RootDepthM, kind.AllowedDepletion),
            Soil = soil,
            SlopePercent = 2,
            Emission = new Emission(drip ? EmissionKind.Drip : EmissionKind.Rotor, rate, rate * 100 / 60, FittedSpots.Of(drip ? 0.85 : 0.70)),
        };
        Profile profile = new()
        {
            Name = "1 station, 1 program",
            Stations = 1,
            Programs = 1,
            StartTimesPerProgram = 8,
            RunTimeStepSeconds = 60,
            DayRules = [DayRuleKind.Interval],
            LargestIntervalDays = 14,
            Percent = new PercentRange(5, 100, 5),
            ClockKnowsDaylightSaving = true,
        };
        return new Site
        {
            Name = series.File,
            Place = series.Place,
            TimeZone = "UTC",
            Supplies = [new WaterSupply("tap", 1000, double.NaN, PermittedTimes.Always)],
            Controllers = [new SiteController { Name = "only", Profile = profile, Supply = "tap", Zones = [zone] }],
        };
    }

    /// <summary>A program such as common practice would key in: as rare as the root zone bears at the peak, run times half again what the peak asks.</summary>
    private static Plan PlanOf(Site site, Climate[] training)
    {
        Zone zone = site.Controllers[0].Zones[0];
        RootZone root = RootZone.Of(zone);
        double peakMm = training.Average(y => Enumerable.Range(0, y.Days).Max(d => zone.Planting.CoefficientIn(y.DateOf(d).Month) * y.EtoMm[d]));
        int days = (int)Math.Clamp(Math.Floor(root.ReadilyMm / peakMm), 1, 14);
        double grossMm = 1.5 * days * peakMm / (0.4 + (0.6 * CommonPractice.LowQuarterUniformity(zone.Emission.Spots)));
        int seconds = (int)Math.Ceiling(grossMm / zone.Emission.PrecipitationRateMmPerHour * 60) * 60;
        int starts = 1 + seconds / 7200;
        Settings settings = new(
        [
            new KeyedProgram('A', Enumerable.Range(0, starts).Select(s => new LocalTime(3, 0).PlusHours(2 * s)).ToListOf(), [new RunTime(1, seconds / starts / 60 * 60)], new EveryNDays(days, new LocalDate(2000, 1, 1))),
        ]);
        return new Plan(site.Name, [new ControllerPlan("only", settings, [])]);
    }
}
