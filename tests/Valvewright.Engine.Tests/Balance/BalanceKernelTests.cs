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
                ZoneDays days = ZoneDays.Of(zone, climate);
                CandidateReplay replay = new(zone, [days]);
                double[,] unmet = new double[1, depths.Length];
                replay.Run(replay.SharesOf(date => climate.DayOf(date) % interval == 0 ? 1 : 0), depths, unmet);
                for (int candidate = 0; candidate < depths.Length; candidate++)
                {
                    double[] applied = [.. Enumerable.Range(0, climate.Days).Select(d => d % interval == 0 ? depths[candidate] : 0)];
                    Near(ZoneReplay.Run(zone, climate, applied, []).UnmetMm, unmet[0, candidate]);
                }
            },
            iter: 300);

    [Fact]
    public void The_number_of_threads_and_the_company_of_other_candidates_change_no_bit() =>
        Gen.Select(Zones.Any, Zones.AnyClimate(200, 400).Array[2, 5], Gen.Double[0, 40].Array[2, 70]).ForEvery(
            (zone, years, depths) =>
            {
                CandidateReplay replay = new(zone, [.. years.Select(y => ZoneDays.Of(zone, y))]);
                double[][] shares = replay.SharesOf(date => date.Day % 3 == 0 ? 0.8 : 0);
                double[,] all = new double[years.Length, depths.Length], threaded = new double[years.Length, depths.Length],
                    alone = new double[years.Length, 1];
                replay.Run(shares, depths, all);
                replay.Run(shares, depths, threaded, threads: 4);
                replay.Run(shares, [depths[^1]], alone);
                Assert.Equal(all, threaded);
                Assert.All(Enumerable.Range(0, years.Length), year => Assert.Equal(all[year, depths.Length - 1], alone[year, 0]));
            },
            iter: 50);

    /// <summary>Whatever the machine has, both widths are run here; they give the same bits, and what the scalar store gives.</summary>
    [Fact]
    public void Both_register_widths_give_the_same_bits_and_agree_with_the_scalar_store() =>
        Gen.Select(Zones.Any, Zones.AnyClimate(10, 200), Gen.Double[0, 30].Array[32]).ForEvery(
            (zone, climate, water) =>
            {
                (RootZone root, ZoneDays days) = (RootZone.Of(zone), ZoneDays.Of(zone, climate));
                double[] share = [.. Enumerable.Range(0, days.Steps).Select(d => d % 4 == 1 ? 1.0 : 0)];
                BalanceLanes wide = LanesOf(water, root), narrow = LanesOf(water, root);
                BalanceKernel.Run(root, days, 0, days.Steps, share, wide, 0, 32, wide: true);
                BalanceKernel.Run(root, days, 0, days.Steps, share, narrow, 0, 32, wide: false);
                for (int lane = 0; lane < water.Length; lane++)
                {
                    SpotStore store = new(root, 0);
                    for (int day = 0; day < days.Steps; day++)
                    {
                        store.Step(days, day, share[day] * water[lane]);
                    }

                    Near(store.LeftMm, wide.LeftMm[lane]);
                    Near(store.DrainageMm, wide.DrainageMm[lane]);
                    Near(store.UnmetMm, wide.UnmetMm[lane]);
                    Assert.Equal(wide.LeftMm[lane], narrow.LeftMm[lane]);
                    Assert.Equal(wide.DrainageMm[lane], narrow.DrainageMm[lane]);
                    Assert.Equal(wide.UnmetMm[lane], narrow.UnmetMm[lane]);
                }
            },
            iter: 100);

    [Fact]
    public void A_run_of_the_kernel_allocates_nothing()
    {
        Climate year = new(new NodaTime.LocalDate(2001, 1, 1), [.. Enumerable.Repeat(4.0, 365)], new double[365]);
        Zone zone = Zones.Make();
        ZoneDays days = ZoneDays.Of(zone, year);
        double[] share = [.. Enumerable.Range(0, 365).Select(d => (double)(d % 2))];
        BalanceLanes lanes = LanesOf([.. Enumerable.Range(1, 50).Select(d => (double)d)], RootZone.Of(zone));
        BalanceKernel.Run(RootZone.Of(zone), days, 0, 365, share, lanes);
        long before = GC.GetAllocatedBytesForCurrentThread();
        BalanceKernel.Run(RootZone.Of(zone), days, 0, 365, share, lanes);
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    /// <summary>A stretch run in pieces, as a season that changes its percent between them, ends like the whole.</summary>
    [Fact]
    public void Pieces_of_a_year_join_up() =>
        Gen.Select(Zones.Any, Zones.AnyClimate(100, 300), Gen.Double[0, 30].Array[32], Gen.Int[1, 99]).ForEvery(
            (zone, climate, water, cut) =>
            {
                (RootZone root, ZoneDays days) = (RootZone.Of(zone), ZoneDays.Of(zone, climate));
                double[] share = [.. Enumerable.Range(0, days.Steps).Select(d => d % 5 == 0 ? 1.0 : 0)];
                BalanceLanes whole = LanesOf(water, root), pieces = LanesOf(water, root);
                BalanceKernel.Run(root, days, 0, days.Steps, share, whole);
                BalanceKernel.Run(root, days, 0, cut, share, pieces);
                BalanceKernel.Run(root, days, cut, days.Steps, share, pieces);
                for (int lane = 0; lane < water.Length; lane++)
                {
                    Near(whole.LeftMm[lane], pieces.LeftMm[lane]);
                    Near(whole.UnmetMm[lane], pieces.UnmetMm[lane]);
                    Near(whole.DrainageMm[lane], pieces.DrainageMm[lane]);
                }
            },
            iter: 100);

    private static BalanceLanes LanesOf(double[] water, RootZone root)
    {
        BalanceLanes lanes = new(water.Length);
        lanes.Reset(root.TotalMm);
        water.CopyTo(lanes.WaterMm, 0);
        return lanes;
    }

    private static void Near(double expected, double actual) => Assert.Equal(expected, actual, 1e-9 * Math.Max(1, Math.Abs(expected)));
}
