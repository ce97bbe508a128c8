using CsCheck;
using NodaTime;
using Valvewright.Engine.Ground;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Tests.Balance;

/// <summary>Zones and weather to test the balance with.</summary>
internal static class Zones
{
    /// <summary>Random depletion shares, coefficients, uniformities, soils.</summary>
    public static Gen<Zone> Any { get; } =
        from available in Gen.Double[40, 200]
        from depth in Gen.Double[0.05, 1.5]
        from allowed in Gen.Double[0.05, 0.9]
        from coefficient in Gen.Double[0.1, 1.3]
        from intake in Gen.Double[2, 20]
        from loss in Gen.Double[0, 0.3]
        from shares in Gen.Double[0.2, 1.8].Array[1, 24]
        select Make(available, depth, allowed, coefficient, intake, loss, shares);

    /// <summary>Random weather with dry spells and cloudbursts.</summary>
    public static Gen<Climate> AnyClimate(int fewest, int most) =>
        from days in Gen.Int[fewest, most]
        from eto in Gen.Double[0, 10].Array[days]
        from chance in Gen.Double[0, 1].Array[days]
        from rain in Gen.Double[0, 80].Array[days]
        select new Climate(new LocalDate(2001, 3, 1), eto, [.. rain.Select((r, i) => chance[i] < 0.2 ? r : 0)]);

    public static Zone Make(
        double availableMmPerM = 150,
        double rootDepthM = 0.3,
        double allowed = 0.5,
        double coefficient = 0.8,
        double intakeMmPerHour = 9,
        double loss = 0,
        double[]? shares = null,
        PlantStage stage = PlantStage.Established)
    {
        double[] raw = shares ?? [1.0];
        double mean = raw.Average();
        SpotShares spots = new(raw.Select(s => s / mean).ToListOf(), raw.Select(_ => 1.0 / raw.Length).ToListOf(), "test");
        return new Zone
        {
            Name = "Test lawn",
            Station = 1,
            AreaM2 = 200,
            Planting = new Planting("turf", stage, Enumerable.Repeat(coefficient, 12).ToListOf(), rootDepthM, allowed),
            Soil = new Soil("loam", availableMmPerM, intakeMmPerHour, 7.6),
            Emission = new Emission(EmissionKind.Rotor, 12, 40, spots, loss),
        };
    }
}
