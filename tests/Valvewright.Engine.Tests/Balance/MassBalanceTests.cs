using CsCheck;
using Valvewright.Engine.Balance;
using Valvewright.Tests;

namespace Valvewright.Engine.Tests.Balance;

public sealed class MassBalanceTests
{
    /// <summary>Rain + irrigation that reaches the ground = use + drainage + runoff + change of store, on any input.</summary>
    [Fact]
    public void No_water_is_lost_or_made() =>
        Gen.Select(Zones.Any, Zones.AnyClimate(1, 500), Gen.Double[0, 60].Array[500], Gen.Double[0, 1], Gen.Double[0, 1]).ForEvery(
            (zone, climate, water, runs, start) =>
            {
                double[] applied = water[..climate.Days];
                double[] runoff = [.. applied.Select(a => a * runs)];
                ZoneOutcome o = ZoneReplay.Run(zone, ZoneDays.Of(zone, climate), applied, runoff, start * RootZone.Of(zone).TotalMm);
                double reached = (o.AppliedMm - o.RunoffMm) * (1 - zone.Emission.ApplicationLossFraction);
                double gained = o.RainMm - o.RainRunoffMm + reached;
                Assert.Equal(gained, o.UseMm + o.DrainageMm + o.StoreChangeMm, 1e-9 * Math.Max(1, gained));
                Assert.InRange(o.UseMm, 0, o.DemandMm * (1 + 1e-12));
                Assert.InRange(o.RainRunoffMm, 0, o.RainMm);
            },
            iter: 500);
}
