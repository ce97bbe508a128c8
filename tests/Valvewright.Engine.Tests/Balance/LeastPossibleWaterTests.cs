using CsCheck;
using Google.OrTools.LinearSolver;
using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;
using Valvewright.Tests;

namespace Valvewright.Engine.Tests.Balance;

public sealed class LeastPossibleWaterTests
{
    [Fact]
    public void No_spot_ever_ends_a_day_past_allowed_depletion() =>
        Gen.Select(Zones.Any, Zones.AnyClimate(50, 400)).ForEvery(
            (zone, climate) =>
            {
                LeastPossibleWater least = LeastPossibleWater.Of(zone, climate);
                ZoneOutcome outcome = ZoneReplay.Run(zone, climate, least.ByDayMm, []);
                Assert.InRange(outcome.WorstSpotStressDays, 0, 1e-9);
            },
            iter: 200);

    /// <summary>
    /// Against linear programming (the GLOP solver of OR-Tools): least sum of water with every spot's depletion between 0 and RAW and water
    /// free to drain at any time. That leaves schedules more freedom than the balance does, so its optimum is a lower bound.
    /// </summary>
    [Fact]
    public void Linear_programming_finds_nothing_better() =>
        Gen.Select(Zones.Any, Zones.AnyClimate(5, 60)).ForEvery(
            (zone, climate) =>
            {
                double bound = LeastByLinearProgramming(zone, ZoneDays.Of(zone, climate));
                double found = LeastPossibleWater.Of(zone, climate).TotalMm;
                Assert.Equal(bound, found, 1e-6 * Math.Max(1, found));
            },
            iter: 100);

    /// <summary>
    /// Any schedule that keeps every spot within allowed depletion has used at least as much up to every day, not only at the end: random
    /// schedules, repaired until they keep it.
    /// </summary>
    [Fact]
    public void No_repaired_random_schedule_uses_less_up_to_any_day() =>
        Gen.Select(Zones.Any, Zones.AnyClimate(60, 200), Gen.Double[0, 12].Array[200], Gen.Double[0, 1].Array[200]).ForEvery(
            (zone, climate, extra, chance) =>
            {
                double[] schedule = Repaired(zone, climate, [.. extra.Select((x, i) => chance[i] < 0.3 ? x : 0)]);
                double[] least = LeastPossibleWater.Of(zone, climate).ByDayMm;
                double leastSum = 0, sum = 0;
                for (int day = 0; day < climate.Days; day++)
                {
                    leastSum += least[day];
                    sum += schedule[day];
                    Assert.True(leastSum <= sum + 1e-9 * Math.Max(1, sum), $"day {day}: {leastSum} > {sum}");
                }
            },
            iter: 300);

    [Fact]
    public void Years_that_begin_in_July_are_added_up_as_such()
    {
        Climate climate = new(new LocalDate(2001, 7, 1), [.. Enumerable.Repeat(5.0, 730)], new double[730]);
        LeastPossibleWater least = LeastPossibleWater.Of(Zones.Make(), climate);
        IReadOnlyList<YearTotal> years = least.ByYear(new AnnualDate(7, 1));
        Assert.Equal([2001, 2002], years.Select(y => y.Year));
        Assert.Equal(365, years[0].Days);
        Assert.Equal(365 * 4.0, years[1].Mm, 1e-6);
        Assert.Equal(365 * 4.0 - 22.5, years[0].Mm, 1e-6);
    }

    private static double LeastByLinearProgramming(Zone zone, ZoneDays days)
    {
        using Solver solver = Solver.CreateSolver("GLOP");
        double readily = RootZone.Of(zone).ReadilyMm;
        double reaching = 1 - zone.Emission.ApplicationLossFraction;
        Variable[] water = [.. Enumerable.Range(0, days.Days).Select(_ => solver.MakeNumVar(0, double.PositiveInfinity, ""))];
        foreach (double share in zone.Emission.Spots.Share)
        {
            Variable? before = null;
            for (int day = 0; day < days.Days; day++)
            {
                Variable drained = solver.MakeNumVar(0, double.PositiveInfinity, "");
                Variable after = solver.MakeNumVar(0, readily, "");
                LinearExpr left = after + water[day] * (share * reaching) - drained;
                solver.Add((before is null ? left : left - before) == days.WantedMm[day] - days.RainInMm[day]);
                before = after;
            }
        }

        solver.Minimize(water.Aggregate(new LinearExpr(), (sum, w) => sum + w));
        Assert.Equal(Solver.ResultStatus.OPTIMAL, solver.Solve());
        return solver.Objective().Value();
    }

    private static double[] Repaired(Zone zone, Climate climate, double[] schedule)
    {
        ZoneDays days = ZoneDays.Of(zone, climate);
        RootZone root = RootZone.Of(zone);
        double reaching = 1 - zone.Emission.ApplicationLossFraction;
        double[] depletion = new double[zone.Emission.Spots.Share.Count];
        for (int day = 0; day < climate.Days; day++)
        {
            for (int spot = 0; spot < depletion.Length; spot++)
            {
                double before = depletion[spot] + days.WantedMm[day] - days.RainInMm[day];
                schedule[day] = Math.Max(schedule[day], (before - root.ReadilyMm) / (zone.Emission.Spots.Share[spot] * reaching));
            }

            for (int spot = 0; spot < depletion.Length; spot++)
            {
                double before = depletion[spot] + days.WantedMm[day] - days.RainInMm[day];
                depletion[spot] = Math.Max(0, before - schedule[day] * zone.Emission.Spots.Share[spot] * reaching);
            }
        }

        return schedule;
    }
}
