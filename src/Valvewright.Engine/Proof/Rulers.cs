using Valvewright.Engine.Balance;
using Valvewright.Engine.Budget;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Proof;

/// <summary>What the trade measures a year's water by, m3, mean of the years of a replay.</summary>
/// <param name="MinimumM3">Minimum water: perfect foresight, evenly watered.</param>
/// <param name="AuditorM3">The auditor's schedule: net requirement x run-time multiplier / part that reaches the ground.</param>
/// <param name="AllowanceM3">Maximum applied water allowance of MWELO, non-residential.</param>
/// <param name="EstimatedUseM3">Estimated total water use of MWELO.</param>
public sealed record Rulers(double MinimumM3, double AuditorM3, double AllowanceM3, double EstimatedUseM3)
{
    /// <summary>Minimum water of one year, m3; a seedbed is watered in its weeks only.</summary>
    public static double MinimumM3Of(Site site, Climate year)
    {
        ArgumentNullException.ThrowIfNull(site);
        double clockHours = Seedbed.ClockHoursOf(site);
        return site.Controllers.SelectMany(c => c.Zones).Sum(z => z.AreaM2 / 1000 * (!Seedbed.IsOne(z) ? MinimumWater.Of(z, year).GrossMm
            : Seedbed.WindowsOf(z, [year]).Average(
                w => MinimumWater.Of(z, Seedbed.HoursOf(z, site.Place, clockHours, w)).GrossMm)));
    }

    internal static Rulers Of(Site site, IReadOnlyList<Climate> years, ListOf<ZoneProof> proofs)
    {
        double eto = years.Average(y => y.EtoMm.Sum());
        Zone[] zones = [.. site.Controllers.SelectMany(c => c.Zones)];
        return new Rulers(
            proofs.Sum(z => z.MinimumMm * z.AreaM2) / 1000,
            proofs.Sum(z => z.AuditorMm * z.AreaM2) / 1000,
            Mwelo.AllowanceL(eto, zones.Sum(z => z.AreaM2), Mwelo.AdjustmentFactor(LandscapeUse.NonResidential)) / 1000,
            zones.Sum(z => Mwelo.EstimatedUseL(eto,
                new Hydrozone(z.AreaM2, z.Planting.CoefficientByMonth.Average(), Mwelo.IrrigationEfficiency(z.Emission.Kind)))) / 1000);
    }
}
