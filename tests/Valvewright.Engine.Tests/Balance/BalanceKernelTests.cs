using CsCheck;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Tests.Balance;

public sealed class BalanceKernelTests
{
    /// <summary>Any zone, weather and depths: every candidate equals the day by day replay of its own irrigation.</summary>
    [Fact]
    public void Every_candidate_agrees_with_the_day_by_day_replay() =>
        Gen.Select(Zones.Any, Zones.AnyClimate(30, 400), Gen.Double[0, 40].Array[1, 20], Gen.Int[1, 7]).Sample(
            (zone, climate, depths, interval) =>
            {
                CandidateReplay replay = new(zone, [climate]);
                CandidateOutcomes outcomes = replay.RoomFor(depths.Length);
                WaterDays days = replay.WaterDays(date => climate.DayOf(date) % interval == 0 ? 1 : 0);
                replay.Run(days, depths, outcomes);
                for (int candidate = 0; candidate < depths.Length; candidate++)
                {
                    double[] applied = [.. Enumerable.Range(0, climate.Days).Select(d => d % interval == 0 ? depths[candidate] : 0)];
                    ZoneOutcome one = ZoneReplay.Run(zone, climate, applied, []);
                    Near(one.AppliedMm, outcomes.AppliedMm[0, candidate]);
                    Near(one.DrainageMm, outcomes.DrainageMm[0, candidate]);
                    Near(one.UseMm, outcomes.UseMm[0, candidate]);
                    Near(one.StressDays, outcomes.StressDays[0, candidate]);
                    Near(one.WorstSpotStressDays, outcomes.WorstSpotStressDays[0, candidate]);
                }
            },
            iter: 300);

    [Fact]
    public void The_number_of_threads_and_the_company_of_other_candidates_change_no_bit() =>
        Gen.Select(Zones.Any, Zones.AnyClimate(200, 400).Array[2, 5], Gen.Double[0, 40].Array[2, 70]).Sample(
            (zone, years, depths) =>
            {
                CandidateReplay replay = new(zone, years);
                WaterDays days = replay.WaterDays(date => date.Day % 3 == 0 ? 0.8 : 0);
                CandidateOutcomes all = replay.RoomFor(depths.Length), threaded = replay.RoomFor(depths.Length), alone = replay.RoomFor(1);
                replay.Run(days, depths, all);
                replay.Run(days, depths, threaded, threads: 4);
                Assert.Equal(all.StressDays, threaded.StressDays);
                Assert.Equal(all.UseMm, threaded.UseMm);
                int last = depths.Length - 1;
                replay.Run(days, depths.AsSpan(last), alone);
                for (int year = 0; year < years.Length; year++)
                {
                    Assert.Equal(all.StressDays[year, last], alone.StressDays[year, 0]);
                    Assert.Equal(all.DrainageMm[year, last], alone.DrainageMm[year, 0]);
                }
            },
            iter: 50);

    /// <summary>Whatever the machine has, both widths are run here and must give the same bits as the scalar store.</summary>
    [Fact]
    public void Both_register_widths_give_the_bits_of_the_scalar_store() =>
        Gen.Select(Gen.Double[5, 200], Gen.Double[0.05, 0.95], Zones.AnyClimate(10, 200), Gen.Double[0, 30].Array[32]).Sample(
            (total, allowed, climate, water) =>
            {
                RootZone root = new(total, total * allowed);
                double[] share = [.. Enumerable.Range(0, climate.Days).Select(d => d % 4 == 1 ? 1.0 : 0)];
                BalanceLanes wide = LanesOf(water), narrow = LanesOf(water);
                BalanceKernel.RunBlock<Lane8>(root, climate.EtoMm, climate.RainMm, share, wide, 0);
                BalanceKernel.RunBlock<Lane4>(root, climate.EtoMm, climate.RainMm, share, narrow, 0);
                BalanceKernel.RunBlock<Lane4>(root, climate.EtoMm, climate.RainMm, share, narrow, 16);
                for (int lane = 0; lane < water.Length; lane++)
                {
                    SpotStore store = new(root, 0);
                    for (int day = 0; day < climate.Days; day++)
                    {
                        store.Step(climate.RainMm[day] + share[day] * water[lane], climate.EtoMm[day]);
                    }

                    Assert.Equal(store.DepletionMm, wide.DepletionMm[lane]);
                    Assert.Equal(store.DepletionMm, narrow.DepletionMm[lane]);
                    Assert.Equal(store.DrainageMm, wide.DrainageMm[lane]);
                    Assert.Equal(wide.StressMm[lane], narrow.StressMm[lane]);
                }
            },
            iter: 100);

    private static BalanceLanes LanesOf(double[] water)
    {
        BalanceLanes lanes = new(water.Length);
        water.CopyTo(lanes.WaterMm, 0);
        return lanes;
    }

    private static void Near(double expected, double actual) => Assert.Equal(expected, actual, 1e-9 * Math.Max(1, Math.Abs(expected)));
}
