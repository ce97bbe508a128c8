using CsCheck;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Survey;
using Valvewright.Tests;

namespace Valvewright.Engine.Tests.Balance;

/// <summary>The protocol is known from memory only; these tests hold its sums, not its text.</summary>
public sealed class SwatProtocolTests
{
    [Fact]
    public void A_balance_by_hand()
    {
        // 20 mm stored. Day 1: 20 - 6 = 14. Day 2: 14 + 10 - 6 = 18. Day 3: 18 + 12 - 6 = 24, 4 over. Day 4: 20 - 23 = -3.
        SwatScore score = SwatProtocol.Score(20, [6, 6, 6, 23], [0, 0, 0, 0], [0, 10, 12, 0], [0, 0, 1, 0]);
        Assert.Equal(new SwatScore(41, 3, 4, 1), score);
        Assert.Equal(38.0 / 41, score.Adequacy, 1e-12);
        Assert.Equal(5.0 / 41, score.Excess, 1e-12);
    }

    [Fact]
    public void Surplus_from_rain_is_no_fault_of_the_schedule()
    {
        SwatScore score = SwatProtocol.Score(20, [5, 5], [30, 30], [0, 2], []);
        Assert.Equal(2, score.SurplusMm);
        Assert.Equal(1, score.Adequacy);
    }

    /// <summary>
    /// While the store never runs out the protocol's balance is the root-zone balance with allowed depletion at the wilting point: what
    /// drains in dry weather is the protocol's surplus.
    /// </summary>
    [Fact]
    public void It_agrees_with_the_root_zone_balance_of_the_same_storage() =>
        Gen.Select(Gen.Double[60, 90], Gen.Double[0, 5].Array[100], Gen.Double[3, 30].Array[100]).ForEvery(
            (storage, use, water) =>
            {
                SpotStore store = new(new RootZone(storage, storage), 0);
                for (int day = 0; day < use.Length; day++)
                {
                    store.Step(water[day], use[day]);
                }

                SwatScore score = SwatProtocol.Score(storage, use, new double[100], water, []);
                Assert.Equal(0, score.DeficitMm);
                Assert.Equal(store.UseMm, score.UseMm, 1e-9 * score.UseMm);
                Assert.Equal(store.DrainageMm, score.SurplusMm, 1e-9 * Math.Max(1, score.SurplusMm));
            },
            iter: 200);

    [Fact]
    public void The_low_quarter_is_scored_with_its_own_share_and_the_part_that_reaches_the_ground()
    {
        // DU of two halves is 0.4, so the low quarter gets 0.4 + 0.6 x 0.4 = 0.64 of the mean.
        Zone zone = Zones.Make(loss: 0.1, shares: [0.4, 1.6]);
        ZoneDays days = ZoneDays.Of(zone, new Engine.Weather.Climate(new NodaTime.LocalDate(2001, 6, 1), [10, 10], [0, 0]));
        SwatScore score = SwatProtocol.Score(zone, days, [20, 0], [2, 0]);
        Assert.Equal((18 * 0.9 * 0.64) - 8, score.SurplusMm, 1e-9);
        Assert.Equal(2 * 0.9 * 0.64, score.RunoffMm, 1e-9);
    }

    [Fact]
    public void There_are_six_zones()
    {
        Assert.Equal([1, 2, 3, 4, 5, 6], SwatZones.All.Select(z => z.Number));
        Assert.All(SwatZones.All, z => Assert.Equal(12, z.CoefficientByMonth.Count));
    }
}
