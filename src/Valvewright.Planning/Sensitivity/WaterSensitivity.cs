using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Planning.Choices;

namespace Valvewright.Planning.Sensitivity;

/// <summary>A value that the water of a plan rests on.</summary>
public enum WaterFactor
{
    /// <summary>Low-quarter distribution uniformity of the sprinklers.</summary>
    Uniformity,

    /// <summary>Landscape coefficient.</summary>
    Coefficient,

    /// <summary>Root depth.</summary>
    RootDepth,

    /// <summary>Allowed depletion.</summary>
    AllowedDepletion,

    /// <summary>How far soil and roots even out what cans show.</summary>
    SoilEvening,

    /// <summary>What leaves hold of each watering.</summary>
    LeafStore,

    /// <summary>What a millimeter of unmet use weighs.</summary>
    UnmetUseWeight,
}

/// <summary>How far a site's water moves with one value.</summary>
/// <param name="Factor">The value.</param>
/// <param name="LowM3">Change of a mean year's water with the value at the low end of its usual range, m3.</param>
/// <param name="HighM3">The same at the high end.</param>
public sealed record WaterSensitivity(WaterFactor Factor, double LowM3, double HighM3)
{
    /// <summary>Ends of each value's range: differences, but factors for coefficient and root depth, and the values themselves for leaves
    /// and weight.</summary>
    /// <remarks>
    /// Rules of thumb: how far two careful people differ who look the value up instead of measuring it. Leaf store and weight: the span of
    /// docs/balance.md.
    /// </remarks>
    public static (double Low, double High) RangeOf(WaterFactor value) => value switch
    {
        WaterFactor.Uniformity => (-0.1, 0.1),
        WaterFactor.Coefficient => (0.85, 1.15),
        WaterFactor.RootDepth => (0.67, 1.5),
        WaterFactor.AllowedDepletion => (-0.1, 0.1),
        WaterFactor.SoilEvening => (-0.2, 0.2),
        WaterFactor.LeafStore => (0.5, 2),
        _ => (2, 8),
    };

    /// <summary>Every value, the one that moves the water most first.</summary>
    /// <param name="site">The survey.</param>
    /// <param name="plan">Its plan: each zone keeps its watering days, and gets the best depth each month.</param>
    /// <param name="years">Whole years of climate.</param>
    /// <param name="cancel">Stops the work.</param>
    public static ListOf<WaterSensitivity> Of(Site site, Plan plan, IReadOnlyList<Climate> years, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        (Zone Zone, DayRule Rule, Profile Profile)[] zones =
        [
            .. site.Controllers.SelectMany(c => c.Zones.Where(z => z.Lasts).Select(z => (z, RuleOf(plan, c.Name, z), c.Profile)))
                .Where(z => z.Item2 is not null).Select(z => (z.z, z.Item2!, z.Profile)),
        ];
        WateringDates dates = new(years);
        WaterFactor[] factors = Enum.GetValues<WaterFactor>();
        var alike = zones.GroupBy(z => z with { Zone = z.Zone with { Name = "", Station = 0, AreaM2 = 1 } }).ToArray();
        (double Low, double High)[][] changes = new (double, double)[alike.Length][];
        Parallel.For(0, alike.Length, new ParallelOptions { CancellationToken = cancel }, group =>
        {
            (Zone zone, DayRule rule, Profile profile) = alike[group].Key;
            double thousands = alike[group].Sum(z => z.Zone.AreaM2) / 1000;
            double now = WaterMm(zone, ZoneDays.LeafStoreMm, site.UnmetUseWeight);
            changes[group] = [.. factors.Select(f => (
                thousands * (At(f, RangeOf(f).Low) - now), thousands * (At(f, RangeOf(f).High) - now)))];

            double At(WaterFactor value, double end) => WaterMm(
                With(zone, value, end),
                value == WaterFactor.LeafStore ? end : ZoneDays.LeafStoreMm, value == WaterFactor.UnmetUseWeight ? end
                    : site.UnmetUseWeight);

            double WaterMm(Zone changed, double leafStoreMm, double weight)
            {
                DepthSearch depths = new(
                    changed, [.. years.Select(y => ZoneDays.Of(changed, y, RainRunoff.Of(changed), leafStoreMm))], dates, weight);
                return depths.Find(WaterDays.Of(rule), profile, UsefulDepth.GrossMm(changed), depths.MostUsefulMm).WaterMm;
            }
        });
        return factors.Select((f, i) => new WaterSensitivity(f, changes.Sum(c => c[i].Low), changes.Sum(c => c[i].High)))
            .OrderByDescending(s => Math.Max(Math.Abs(s.LowM3), Math.Abs(s.HighM3))).ToListOf();
    }

    private static DayRule? RuleOf(Plan plan, string controller, Zone zone) => plan.For(controller).Settings.Programs
        .FirstOrDefault(p => p.RunTimes.Any(r => r.Station == zone.Station && r.Seconds > 0))?.Days;

    private static Zone With(Zone zone, WaterFactor value, double end) => value switch
    {
        WaterFactor.Uniformity => zone with { Emission = zone.Emission with { Spots = FittedSpots.Of(
            Math.Clamp(LowQuarter.UniformityOf(zone.Emission.Spots) + end, 0.2, 0.98)) } },
        WaterFactor.Coefficient => zone with { Planting = zone.Planting with
            { CoefficientByMonth = zone.Planting.CoefficientByMonth.Select(k => k * end).ToListOf() } },
        WaterFactor.RootDepth => zone with { Planting = zone.Planting with { RootDepthM = zone.Planting.RootDepthM * end } },
        WaterFactor.AllowedDepletion => zone with { Planting = zone.Planting with
            { AllowedDepletion = Math.Clamp(zone.Planting.AllowedDepletion + end, 0.1, 0.8) } },
        WaterFactor.SoilEvening => zone with { SoilEvening = Math.Clamp(zone.SoilEvening + end, 0, 1) },
        _ => zone,
    };
}
