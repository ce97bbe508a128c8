using CsCheck;
using Google.OrTools.LinearSolver;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;
using Valvewright.Tests;

namespace Valvewright.Engine.Tests.Balance;

public sealed class MinimumWaterTests
{
    private static readonly Gen<Zone> AnyDrip = Zones.Any.Select(z => z with { Emission = z.Emission with { Kind = EmissionKind.Drip } });

    [Fact]
    public void An_evenly_watered_zone_lacks_nothing() =>
        Gen.Select(Zones.Any, Zones.AnyClimate(50, 400)).ForEvery(
            (zone, climate) =>
            {
                MinimumWater minimum = MinimumWater.Of(zone, climate);
                double[] gross = [.. minimum.NetByDayMm.Select(net => net / minimum.Reaching)];
                Assert.InRange(ZoneReplay.Run(zone, ZoneDays.Of(zone, climate), gross, [], share: 1).UnmetMm, 0, 1e-9 * climate.Days);
            },
            iter: 200);

    /// <summary>
    /// Against linear programming (the GLOP solver of OR-Tools): least sum of water with every day's depletion between 0 and what the next
    /// day allows, and water free to drain at any time. That leaves schedules more freedom than the balance does, so its optimum is a lower
    /// bound. Drip, whose balance is linear.
    /// </summary>
    [Fact]
    public void Linear_programming_finds_nothing_better() =>
        Gen.Select(AnyDrip, Zones.AnyClimate(5, 60)).ForEvery(
            (zone, climate) =>
            {
                double bound = LeastByLinearProgramming(ZoneDays.Of(zone, climate));
                double found = MinimumWater.Of(zone, climate).NetMm;
                Assert.Equal(bound, found, 1e-6 * Math.Max(1, found));
            },
            iter: 100);

    /// <summary>Any schedule that leaves no use unmet has applied at least as much up to every day, not only at the end: random schedules,
    /// repaired until they do.</summary>
    [Fact]
    public void No_repaired_random_schedule_uses_less_up_to_any_day() =>
        Gen.Select(Zones.Any, Zones.AnyClimate(60, 200), Gen.Double[0, 12].Array[200], Gen.Double[0, 1].Array[200]).ForEvery(
            (zone, climate, extra, chance) =>
            {
                ZoneDays days = ZoneDays.Of(zone, climate);
                double[] least = MinimumWater.Of(zone, days).NetByDayMm;
                RootZone root = RootZone.Of(zone);
                double leastSum = 0, sum = 0, depletion = 0;
                for (int day = 0; day < climate.Days; day++)
                {
                    double allowed = days.ReadilyMm[Math.Min(day + 1, days.Steps - 1)];
                    double dry = depletion + days.RootUseMm[day] - days.RainInMm[day];
                    double water = Math.Max(chance[day] < 0.3 ? extra[day] : 0, dry - allowed);
                    depletion = Math.Clamp(dry - water, 0, root.TotalMm);
                    (leastSum, sum) = (leastSum + least[day], sum + water + Math.Max(0, days.LeafRoomMm[day] - days.RootUseMm[day]));
                    Assert.True(leastSum <= sum + (1e-9 * Math.Max(1, sum)), $"day {day}: {leastSum} > {sum}");
                }
            },
            iter: 300);

    [Fact]
    public void Months_add_up_to_the_year()
    {
        MinimumWater minimum = MinimumWater
            .Of(Zones.Make(), new Climate(new NodaTime.LocalDate(2001, 1, 1), [.. Enumerable.Repeat(5.0, 365)], new double[365]));
        Assert.Equal(minimum.NetMm, minimum.NetByMonthMm().Sum(), 1e-9);

        // 4 mm a day; at that use RAW is (0.5 + 0.04) x 45 mm = 24.3 mm, which the first days live on.
        Assert.Equal((365 * 4.0) - 24.3, minimum.NetMm, 1e-6);
    }

    private static double LeastByLinearProgramming(ZoneDays days)
    {
        using Solver solver = Solver.CreateSolver("GLOP");
        Variable[] water = [.. Enumerable.Range(0, days.Days).Select(_ => solver.MakeNumVar(0, double.PositiveInfinity, ""))];
        Variable? before = null;
        for (int day = 0; day < days.Days; day++)
        {
            Variable drained = solver.MakeNumVar(0, double.PositiveInfinity, "");
            Variable after = solver.MakeNumVar(0, days.ReadilyMm[Math.Min(day + 1, days.Days - 1)], "");
            LinearExpr left = after + water[day] - drained;
            solver.Add((before is null ? left : left - before) == days.RootUseMm[day] - days.RainInMm[day]);
            before = after;
        }

        solver.Minimize(water.Aggregate(new LinearExpr(), (sum, w) => sum + w));
        Assert.Equal(Solver.ResultStatus.OPTIMAL, solver.Solve());
        return solver.Objective().Value();
    }
}
