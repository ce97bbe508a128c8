using CsCheck;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Balance.Kernel;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;
using Valvewright.Tests;

namespace Valvewright.Engine.Tests.Balance;

public sealed class BalanceKernelTests
{
    /// <summary>Any zone, weather and depths: every candidate equals the day by day replay of its own irrigation.</summary>
    [Fact]
    public void Every_candidate_agrees_with_the_day_by_day_replay() =>
        Gen.Select(Zones.Any, Zones.AnyClimate(30, 400), Gen.Double[0, 40].Array[1, 20], Gen.Int[1, 7]).ForEvery(
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
        Gen.Select(Zones.Any, Zones.AnyClimate(200, 400).Array[2, 5], Gen.Double[0, 40].Array[2, 70]).ForEvery(
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

    /// <summary>Whatever the machine has, both widths are run here; they give the same bits, and what the scalar store gives in mm.</summary>
    [Fact]
    public void Both_register_widths_give_the_same_bits_and_agree_with_the_scalar_store() =>
        Gen.Select(Gen.Double[5, 200], Gen.Double[0.05, 0.95], Zones.AnyClimate(10, 200), Gen.Double[0, 30].Array[32]).ForEvery(
            (total, allowed, climate, water) =>
            {
                RootZone root = new(total, total * allowed);
                double[] share = [.. Enumerable.Range(0, climate.Days).Select(d => d % 4 == 1 ? 1.0 : 0)];
                BalanceLanes wide = LanesOf(water), narrow = LanesOf(water);
                BalanceKernel.Steps steps = new(climate.EtoMm, climate.RainMm, share, root.PerStressMm, root.TotalMm * root.PerStressMm);
                BalanceKernel.RunBlock(root, steps, wide, 0, wide: true);
                BalanceKernel.RunBlock(root, steps, narrow, 0, wide: false);
                for (int lane = 0; lane < water.Length; lane++)
                {
                    SpotStore store = new(root, 0);
                    for (int day = 0; day < climate.Days; day++)
                    {
                        store.Step(climate.RainMm[day] + share[day] * water[lane], climate.EtoMm[day]);
                    }

                    Near(store.DepletionMm, wide.DepletionMm[lane]);
                    Near(store.DrainageMm, wide.DrainageMm[lane]);
                    Near(store.StressSteps, wide.StressSteps[lane]);
                    Assert.Equal(wide.DepletionMm[lane], narrow.DepletionMm[lane]);
                    Assert.Equal(wide.DrainageMm[lane], narrow.DrainageMm[lane]);
                    Assert.Equal(wide.StressSteps[lane], narrow.StressSteps[lane]);
                }
            },
            iter: 100);

    [Fact]
    public void A_run_on_one_thread_allocates_nothing()
    {
        Climate year = new(new NodaTime.LocalDate(2001, 1, 1), [.. Enumerable.Repeat(4.0, 365)], new double[365]);
        CandidateReplay replay = new(Zones.Make(shares: [0.7, 1, 1.3]), [year, year]);
        CandidateOutcomes outcomes = replay.RoomFor(50);
        WaterDays days = replay.WaterDays(date => date.Day % 2);
        double[] depths = [.. Enumerable.Range(1, 50).Select(d => (double)d)];
        replay.Run(days, depths, outcomes);
        long before = GC.GetAllocatedBytesForCurrentThread();
        replay.Run(days, depths, outcomes);
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    /// <summary>Days without stress add up to none at all, not to a rounding error.</summary>
    [Fact]
    public void No_stress_is_exactly_none()
    {
        BalanceLanes lanes = new(40);
        BalanceKernel.Run(new RootZone(60, 30), Enumerable.Repeat(0.37, 80).ToArray(), new double[80], new double[80], lanes);
        Assert.All(lanes.StressSteps.Take(40), s => Assert.Equal(0, s));
        Assert.Equal(80 * 0.37, lanes.DepletionMm[39], 1e-9);
    }

    /// <summary>A stretch run in pieces, as a season that changes its percent between them, ends like the whole.</summary>
    [Fact]
    public void Pieces_of_a_year_join_up() =>
        Gen.Select(Zones.AnyClimate(100, 300), Gen.Double[0, 30].Array[32], Gen.Int[1, 99]).ForEvery(
            (climate, water, cut) =>
            {
                RootZone root = new(80, 35);
                double[] share = [.. Enumerable.Range(0, climate.Days).Select(d => d % 5 == 0 ? 1.0 : 0)];
                BalanceLanes whole = LanesOf(water), pieces = LanesOf(water);
                BalanceKernel.Run(root, climate.EtoMm, climate.RainMm, share, whole);
                BalanceKernel.Run(root, climate.EtoMm.AsSpan(0, cut), climate.RainMm.AsSpan(0, cut), share.AsSpan(0, cut), pieces);
                BalanceKernel.Run(root, climate.EtoMm.AsSpan(cut), climate.RainMm.AsSpan(cut), share.AsSpan(cut), pieces);
                for (int lane = 0; lane < water.Length; lane++)
                {
                    Near(whole.DepletionMm[lane], pieces.DepletionMm[lane]);
                    Near(whole.StressSteps[lane], pieces.StressSteps[lane]);
                    Near(whole.DrainageMm[lane], pieces.DrainageMm[lane]);
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
