using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Needs;

/// <summary>How long a station may run at a time before water runs off, and how long it must wait before it runs again.</summary>
/// <param name="LongestCycleSeconds">Null where neither soil nor rule limits it.</param>
/// <param name="CycleFrom">Where that comes from.</param>
/// <param name="SoakSeconds">0 where no soak is needed.</param>
/// <param name="SoakFrom">Where that comes from.</param>
public sealed record CycleAndSoak(int? LongestCycleSeconds, string CycleFrom, int SoakSeconds, string SoakFrom)
{
    /// <summary>The longest run that can mean anything: a day.</summary>
    private const double DaySeconds = 86_400;

    /// <summary>Intake rate of sloping ground, mm/h.</summary>
    /// <remarks>
    /// Part of the level rate: all of it to 5 %, 80 % to 8 %, 60 % to 12 %, 40 % to 20 %, 25 % beyond. Common practice for sprinklers on
    /// slopes (printed in several irrigation handbooks); from memory.
    /// </remarks>
    public static double IntakeMmPerHour(Zone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return zone.Soil.IntakeMmPerHour * zone.SlopePercent switch
        {
            <= 5 => 1.0,
            <= 8 => 0.8,
            <= 12 => 0.6,
            <= 20 => 0.4,
            _ => 0.25,
        };
    }

    /// <summary>Longest cycle and soak of a zone.</summary>
    /// <remarks>
    /// SWAT protocol (from memory): longest cycle = 60 x ASA / (PR - intake) minutes where PR > intake. Soak: until what stands on the
    /// surface after a longest cycle has gone in, (PR - intake) x cycle / intake.
    /// </remarks>
    public static CycleAndSoak Of(Zone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        double rate = zone.Emission.PrecipitationRateMmPerHour;
        double intake = IntakeMmPerHour(zone);
        double beyond = rate - intake;
        double bySoil = beyond > 0 ? zone.Soil.SurfaceStorageMm / beyond * 3600 : double.PositiveInfinity;
        double byRule = double.IsNaN(zone.LargestDepthPerCycleMm) ? double.PositiveInfinity : zone.LargestDepthPerCycleMm / rate * 3600;
        double longest = Math.Min(bySoil, byRule);
        if (longest >= DaySeconds)
        {
            return new CycleAndSoak(
                null,
                beyond > 0 ? "surface storage lasts for more than a day" : $"sprinklers give {rate:0.#} mm/h, the soil takes in {intake:0.#} mm/h: no runoff",
                0,
                "no runoff, no soak");
        }

        int cycle = (int)Math.Floor(longest);
        string cycleFrom = byRule < bySoil
            ? $"rule: at most {zone.LargestDepthPerCycleMm:0.#} mm a cycle at {rate:0.#} mm/h"
            : $"60 x ASA / (PR - intake): ASA {zone.Soil.SurfaceStorageMm:0.#} mm, PR {rate:0.#} mm/h, intake {intake:0.#} mm/h at {zone.SlopePercent:0.#} % slope (SWAT protocol)";
        if (beyond <= 0)
        {
            return new CycleAndSoak(cycle, cycleFrom, 0, "no runoff, no soak");
        }

        double standingMm = beyond * cycle / 3600;
        int soak = (int)Math.Ceiling(standingMm / intake * 3600);
        return new CycleAndSoak(cycle, cycleFrom, soak, $"{standingMm:0.#} mm stands after a longest cycle; at {intake:0.#} mm/h it has gone in");
    }
}
