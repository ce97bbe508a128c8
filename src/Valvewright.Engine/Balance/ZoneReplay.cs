using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Balance;

/// <summary>Follows the root zone of every spot of a zone through days of weather and irrigation (FAO-56 chapter 8, eq. 84 to 88).</summary>
public static class ZoneReplay
{
    /// <summary>Replays a zone.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="climate">Weather of the days.</param>
    /// <param name="appliedMm">Gross irrigation by day, mean over the zone, mm; one value a day of the climate.</param>
    /// <param name="runoffMm">The part of it that runs off the surface; empty for none.</param>
    public static ZoneOutcome Run(Zone zone, Climate climate, ReadOnlySpan<double> appliedMm, ReadOnlySpan<double> runoffMm)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(climate);
        RootZone root = RootZone.Of(zone);
        ReadOnlySpan<double> share = zone.Emission.Spots.Share.AsSpan();
        ReadOnlySpan<double> weight = zone.Emission.Spots.Weight.AsSpan();
        double reaching = 1 - zone.Emission.ApplicationLossFraction;
        double applied = 0, runoff = 0, rain = 0, drainage = 0, demand = 0, use = 0, stress = 0, worst = 0, store = 0;
        for (int spot = 0; spot < share.Length; spot++)
        {
            double depletion = 0, spotStress = 0;
            for (int day = 0; day < climate.Days; day++)
            {
                double wanted = zone.Planting.CoefficientIn(climate.DateOf(day).Month) * climate.EtoMm[day];
                double ks = Math.Clamp((root.TotalMm - depletion) / (root.TotalMm - root.ReadilyMm), 0, 1);
                double ran = runoffMm.IsEmpty ? 0 : runoffMm[day];
                double water = climate.RainMm[day] + (appliedMm[day] - ran) * reaching * share[spot];
                double after = depletion - water + ks * wanted;
                drainage += weight[spot] * Math.Max(0, -after);
                double used = ks * wanted - Math.Max(0, after - root.TotalMm);
                depletion = Math.Clamp(after, 0, root.TotalMm);
                spotStress += Math.Max(0, depletion - root.ReadilyMm) / (root.TotalMm - root.ReadilyMm);
                demand += weight[spot] * wanted;
                use += weight[spot] * used;
                applied += weight[spot] * appliedMm[day];
                runoff += weight[spot] * ran;
                rain += weight[spot] * climate.RainMm[day];
            }

            store -= weight[spot] * depletion;
            stress += weight[spot] * spotStress;
            worst = Math.Max(worst, spotStress);
        }

        return new ZoneOutcome
        {
            Days = climate.Days,
            AppliedMm = applied,
            RunoffMm = runoff,
            RainMm = rain,
            RainRunoffMm = 0,
            DrainageMm = drainage,
            DemandMm = demand,
            UseMm = use,
            StressDays = stress,
            WorstSpotStressDays = worst,
            StoreChangeMm = store,
        };
    }
}
