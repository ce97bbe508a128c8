using Valvewright.Engine.Balance;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Survey;

namespace Valvewright.Planning.Choices;

/// <summary>What a zone's ground and plants bear at a time.</summary>
/// <param name="LongestCycleSeconds">Longest run before water would run off or a rule on depth would be broken; int.MaxValue for no limit.</param>
/// <param name="SoakSeconds">Pause that the ground needs between two runs on one day.</param>
/// <param name="FewestWateringsPerDay">A seedbed dries within hours and must be wetted this often on every day; 1 otherwise.</param>
/// <param name="LeastUsefulMm">Smallest depth worth giving on a water day, gross.</param>
internal sealed record ZoneLimits(int LongestCycleSeconds, int SoakSeconds, int FewestWateringsPerDay, double LeastUsefulMm)
{
    public static ZoneLimits Of(Zone zone, ZoneYears years, PlannerOptions options)
    {
        double rate = zone.Emission.PrecipitationRateMmPerHour;
        double longest = double.PositiveInfinity;
        double soak = 0;
        if (rate > zone.Soil.IntakeMmPerHour)
        {
            // SWAT protocol: longest cycle before runoff = 60 x ASA / (PR - intake) minutes; then what stands must sink in.
            longest = 3600 * zone.Soil.SurfaceStorageMm / (rate - zone.Soil.IntakeMmPerHour);
            soak = zone.Soil.IntakeMmPerHour > 0 ? 3600 * zone.Soil.SurfaceStorageMm / zone.Soil.IntakeMmPerHour : PermittedSpan.Day;
        }

        if (zone.LargestDepthPerCycleMm is double perCycle and > 0)
        {
            longest = Math.Min(longest, 3600 * perCycle / rate);
        }

        RootZone root = RootZone.Of(zone);
        bool seedbed = zone.Planting.Stage == PlantStage.NewlySeeded;
        int waterings = seedbed ? Math.Max(1, (int)Math.Ceiling(years.PeakWantedMm / root.ReadilyMm - 1e-9)) : 1;
        double useful = zone.Planting.Stage == PlantStage.Established ? root.ReadilyMm * options.LeastUsefulShareOfReadilyAvailable : 0;
        return new ZoneLimits(
            longest >= int.MaxValue ? int.MaxValue : (int)Math.Floor(longest + 1e-6),
            (int)Math.Min(PermittedSpan.Day, Math.Ceiling(soak)),
            waterings,
            useful);
    }
}
