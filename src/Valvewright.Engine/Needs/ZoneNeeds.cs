using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Needs;

/// <summary>Works out what zones want, from the real daily record.</summary>
public static class ZoneNeeds
{
    /// <summary>The needs of every zone of a site, controller by controller.</summary>
    public static ListOf<ZoneNeed> OfAll(Site site, IReadOnlyList<Climate> trainingClimates)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Controllers.SelectMany(c => c.Zones.Select(z => Of(site, c, z, trainingClimates))).ToListOf();
    }

    /// <summary>The need of one zone.</summary>
    /// <param name="site">The site.</param>
    /// <param name="controller">The controller that waters it.</param>
    /// <param name="zone">The zone.</param>
    /// <param name="trainingClimates">Years to learn from; longer stretches are cut into years from their first date.</param>
    /// <exception cref="ArgumentException">There is no weather.</exception>
    public static ZoneNeed Of(Site site, SiteController controller, Zone zone, IReadOnlyList<Climate> trainingClimates)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(controller);
        ArgumentNullException.ThrowIfNull(zone);
        Climate[] climates = [.. Seedbed.IsOne(zone) ? Seedbed.WindowsOf(zone, YearsOf(trainingClimates)) : YearsOf(trainingClimates)];
        ZoneDays[] years = [.. climates.Select(c => ZoneDays.Of(zone, c))];
        ZoneDays[] steps = Seedbed.IsOne(zone)
            ? [.. climates.Select(c => Seedbed.HoursOf(zone, site.Place, Seedbed.ClockHoursOf(site), c))] : years;
        RootZone root = RootZone.Of(zone);
        Figure multiplier = MultiplierOf(zone);
        double reaching = (1 - zone.Emission.ApplicationLossFraction) * (1 - zone.LeachingFraction);
        double grossPerNet = multiplier / reaching;
        ListOf<WeekDemand> weeks = WeeklyDemand.Of(zone, years, steps, grossPerNet);
        PeriodOfYear? season = Seedbed.DatesOf(zone) ?? Irrigating.SeasonOf(weeks);
        YearRange peakUse = YearRange.LargerIsWorse([.. years.Select(y => PeakUse(y, season))]);
        YearRange gap = YearRange.SmallerIsWorse([.. years.Select(y => (double)LongestGap.Of(y, DaysIn(y, season)))]);
        CycleAndSoak cycle = CycleAndSoak.Of(zone);
        Figure shortest = ShortestUsefulOf(zone, root);
        double peakWeek = weeks.Max(w => w.GrossMm.EightInTen);
        double rate = zone.Emission.PrecipitationRateMmPerHour;
        return new ZoneNeed
        {
            Controller = controller.Name,
            Station = zone.Station,
            Zone = zone.Name,
            Stage = zone.Planting.Stage,
            Years = years.Length,
            StorageMm = new Figure(
                root.TotalMm, "mm",
                    $"{new Amount(zone.Soil.AvailableWaterMmPerM, Measure.WaterPerDepth)} x {new Amount(zone.Planting.RootDepthM, Measure.Roots)} of roots (FAO-56 eq. 82)"),
            ReadilyMm = new Figure(
                root.ReadilyMm, "mm", $"allowed depletion {zone.Planting.AllowedDepletion:0.##} x {DepthOf(root.TotalMm)} (FAO-56 eq. 83)"),
            LongestGapDays = gap,
            LongestGapFrom =
                $"from field capacity, {DepthOf(root.ReadilyMm)} last so long at the hardest time of each of {years.Length} years of record, rain included (FAO-56 eq. 85)",
            WateringsPerDay = WateringsPerDayOf(zone, root, peakUse),
            ShortestUsefulMm = shortest,
            ShortestUsefulSeconds = (int)Math.Ceiling(shortest / rate * 3600),
            LongestCycleSeconds = cycle.LongestCycleSeconds,
            LongestCycleFrom = cycle.CycleFrom,
            SoakSeconds = cycle.SoakSeconds,
            SoakFrom = cycle.SoakFrom,
            LongestDaySeconds = double.IsNaN(zone.LargestDepthPerDayMm) ? null : (int)Math.Floor(zone.LargestDepthPerDayMm / rate * 3600),
            RunTimeMultiplier = multiplier,
            RefillMm = new Figure(root.ReadilyMm * grossPerNet, "mm",
                $"{DepthOf(root.ReadilyMm)} x {multiplier.Value:0.##} / {reaching:0.##} that reaches the ground"),
            PeakUseMm = new Figure(
                peakUse.EightInTen, "mm/day", $"largest daily KL x ETo of a year, 8 in 10 of {years.Length} years of record"),
            PeakWeekMm = new Figure(peakWeek, "mm", $"largest weekly gross demand, 8 in 10 of {years.Length} years of record"),
            Weeks = weeks,
            Season = season,
            LeastWaterMm = YearRange.LargerIsWorse([.. steps.Select(y => MinimumWater.Of(zone, y).GrossMm)]),
        };
    }

    /// <summary>Cuts stretches of weather into years from their first dates; what is left over after whole years is dropped.</summary>
    internal static List<Climate> YearsOf(IReadOnlyList<Climate> climates)
    {
        ArgumentNullException.ThrowIfNull(climates);
        List<Climate> years = [];
        foreach (Climate climate in climates)
        {
            LocalDate from = climate.First;
            for (LocalDate next = from.PlusYears(1); next.PlusDays(-1) <= climate.Last; from = next, next = from.PlusYears(1))
            {
                LocalDate last = next.PlusDays(-1);
                years.Add(from == climate.First && last == climate.Last ? climate : climate.Between(from, last));
            }
        }

        if (years.Count == 0)
        {
            years.AddRange(climates.Where(c => c.Days > 0));
        }

        return years.Count > 0 ? years : throw new ArgumentException("No weather to learn from.", nameof(climates));
    }

    private static Func<int, bool> DaysIn(ZoneDays year, PeriodOfYear? window) =>
        window is null ? _ => true : day => window.Contains(year.Climate.DateOf(day));

    private static double PeakUse(ZoneDays year, PeriodOfYear? window)
    {
        Func<int, bool> counts = DaysIn(year, window);
        return Enumerable.Range(0, year.Days).Where(counts).Select(day => year.WantedMm[year.Lead + day]).DefaultIfEmpty(0).Max();
    }

    private static Figure MultiplierOf(Zone zone)
    {
        double uniformity = LowQuarter.UniformityOf(zone.Emission.Spots);
        return new Figure(
            1 / zone.LowQuarterShare,
            "",
            $"1 / ({zone.SoilEvening:0.##} + {1 - zone.SoilEvening:0.##} x DU {uniformity:0.##} of the low quarter): soil and roots even out a part of what cans show");
    }

    private static Figure WateringsPerDayOf(Zone zone, RootZone root, YearRange peakUse)
    {
        if (zone.Planting.Stage != PlantStage.NewlySeeded)
        {
            return new Figure(1, "a day", "the root zone outlasts a day");
        }

        double waterings = Math.Max(1, Math.Ceiling(peakUse.EightInTen / root.ReadilyMm - 1e-9));
        return new Figure(waterings, "a day",
            $"{DepthOf(peakUse.EightInTen)} on the hardest day / {DepthOf(root.ReadilyMm)} readily available in the seedbed, rounded up");
    }

    private static Figure ShortestUsefulOf(Zone zone, RootZone root)
    {
        double gross = UsefulDepth.GrossMm(zone), net = gross * (1 - zone.Emission.ApplicationLossFraction);
        return net > (UsefulDepth.PartOfReadily * root.ReadilyMm) + 1e-9
            ? new Figure(gross, "mm", $"less than {DepthOf(UsefulDepth.LeastOverheadMm)} wets leaves and little else (rule of thumb)")
            : new Figure(gross, "mm",
                $"a quarter of the readily available {DepthOf(root.ReadilyMm)}, so that it reaches below the surface (rule of thumb)");
    }

    private static Amount DepthOf(double mm) => new(mm, Measure.Depth);
}
