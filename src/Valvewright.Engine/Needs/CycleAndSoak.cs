using Valvewright.Engine.Survey;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Needs;

/// <summary>How long a station may run at a time before water runs off, and how long it must wait before it runs again.</summary>
/// <param name="LongestCycleSeconds">Null where neither soil nor rule limits it.</param>
/// <param name="CycleFrom">Where that comes from.</param>
/// <param name="SoakSeconds">0 where no soak is needed.</param>
/// <param name="SoakFrom">Where that comes from.</param>
public sealed record CycleAndSoak(int? LongestCycleSeconds, Sentence CycleFrom, int SoakSeconds, Sentence SoakFrom)
{
    /// <summary>The longest run that can mean anything: a day.</summary>
    private const double DaySeconds = 86_400;

    /// <summary>Longest cycle and soak of a zone.</summary>
    /// <remarks>
    /// SWAT protocol (not checked against the printed text): longest cycle = 60 x ASA / (PR - intake) minutes where PR > intake. Soak:
    /// until what is on the surface after a longest cycle has gone in, (PR - intake) x cycle / intake. Slope counts once: it lowers ASA,
    /// not the intake rate.
    /// </remarks>
    public static CycleAndSoak Of(Zone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        double rate = zone.Emission.PrecipitationRateMmPerHour;
        double intake = zone.Soil.IntakeMmPerHour;
        double beyond = rate - intake;
        double bySoil = beyond > 0 ? zone.Soil.SurfaceStorageMm / beyond * 3600 : double.PositiveInfinity;
        double byRule = double.IsNaN(zone.LargestDepthPerCycleMm) ? double.PositiveInfinity : zone.LargestDepthPerCycleMm / rate * 3600;
        double longest = Math.Min(bySoil, byRule);
        if (longest >= DaySeconds)
        {
            return new CycleAndSoak(
                null,
                beyond > 0 ? (Sentence)"surface storage lasts for more than a day"
                    : $"sprinklers give {RateOf(rate)}, the soil takes in {RateOf(intake)}: no runoff",
                0,
                "no runoff, no soak");
        }

        int cycle = (int)Math.Floor(longest);
        Sentence byRuleFrom = $"rule: at most {DepthOf(zone.LargestDepthPerCycleMm)} a cycle at {RateOf(rate)}";
        Sentence bySoilFrom =
            $"60 x ASA / (PR - intake): ASA {DepthOf(zone.Soil.SurfaceStorageMm)}, PR {RateOf(rate)}, intake {RateOf(intake)}; ASA is that of a {zone.SlopePercent:0.#}% slope";
        Sentence cycleFrom = byRule < bySoil ? byRuleFrom : bySoilFrom;
        if (beyond <= 0)
        {
            return new CycleAndSoak(cycle, cycleFrom, 0, "no runoff, no soak");
        }

        double standingMm = beyond * cycle / 3600;
        int soak = (int)Math.Ceiling(standingMm / intake * 3600);
        return new CycleAndSoak(
            cycle, cycleFrom, soak, $"{DepthOf(standingMm)} is left after a longest cycle and soaks in at {RateOf(intake)}");
    }

    private static Amount DepthOf(double mm) => new(mm, Measure.Depth);

    private static Amount RateOf(double mmPerHour) => new(mmPerHour, Measure.Rate);
}
