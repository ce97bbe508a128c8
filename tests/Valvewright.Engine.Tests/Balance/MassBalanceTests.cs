using CsCheck;
using Valvewright.Engine.Balance;
using Valvewright.Tests;

namespace Valvewright.Engine.Tests.Balance;

public sealed class MassBalanceTests
{
    /// <summary>Rain that serves + irrigation that reaches the column = use + leaf loss + drainage + change of store, on any
    /// input.</summary>
    [Fact]
    public void No_water_is_lost_or_made() =>
        Gen.Select(Zones.Any, Zones.AnyClimate(1, 500), Gen.Double[0, 60].Array[500], Gen.Double[0, 1], Gen.Double[0, 1]).ForEvery(
            (zone, climate, water, runs, start) =>
            {
                double[] applied = water[..climate.Days];
                double[] runoff = [.. applied.Select(a => a * runs)];
                ZoneOutcome o = ZoneReplay
                    .Run(zone, ZoneDays.Of(zone, climate), applied, runoff, zone.LowQuarterShare, start * RootZone.Of(zone).TotalMm);
                double gained = o.ReachedMm + o.RainInMm;
                Assert.Equal(gained, o.UseMm + o.LeafLossMm + o.DrainageMm + o.StoreChangeMm, 1e-9 * Math.Max(1, gained));
                Assert.Equal(o.DemandMm, o.UseMm + o.UnmetMm, 1e-9 * Math.Max(1, o.DemandMm));
                Assert.InRange(o.RainInMm, 0, climate.RainMm.Sum());
            },
            iter: 500);
}
