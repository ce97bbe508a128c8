using Valvewright.Engine.Controllers;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Programs;

namespace Valvewright.Planning.Tests;

/// <summary>
/// Best programs of one controller by trying everything: every way to split the stations into programs, every spread of days and
/// number of starts for each, every choice. No solver, no model; only for a handful of stations.
/// </summary>
internal static class BruteForce
{
    /// <summary>Least unmet need, least cost at that, least settings at that within the cost's tolerance; null where nothing
    /// fits.</summary>
    public static (long Short, long Cost, long Settings)? Best(ControllerCase of, double tolerance)
    {
        List<(long Short, long Cost, long Settings)> all = [];
        foreach (List<List<int>> split in Splits(of.Zones.Count).Where(s => s.Count <= of.Profile.Programs))
        {
            Extend(of, split, 0, (0, 0, 0), [], all);
        }

        if (all.Count == 0)
        {
            return null;
        }

        long shortest = all.Min(a => a.Short);
        long cost = all.Where(a => a.Short == shortest).Min(a => a.Cost);
        long settings = all.Where(a => a.Short == shortest && a.Cost <= cost + (long)(cost * tolerance)).Min(a => a.Settings);
        return (shortest, cost, settings);
    }

    private static void Extend(
        ControllerCase of, List<List<int>> split, int program, (long Short, long Cost, long Settings) sum,
            List<(WaterDays Days, int Cycles)> taken,
        List<(long, long, long)> all)
    {
        if (program == split.Count)
        {
            all.Add((sum.Short, sum.Cost + PriceOutsideEarlyHours(of, split, taken), sum.Settings));
            return;
        }

        foreach (WaterDays days in of.Offered)
        {
            for (int cycles = 1; cycles <= of.Profile.StartTimesPerProgram; cycles++)
            {
                Choice?[] choices = [
                    .. split[program].Select(z => of.Zones[z].Choices.FirstOrDefault(c => c.Days == days && c.Cycles == cycles))];
                int kinds = split[program].Select(z => of.Zones[z].Zone.Planting.RootDepthM >= 0.6).Distinct().Count();
                bool parted = kinds == 1 && taken.Count(t => t == (days, cycles)) == 1
                    && !OfOneKind(of, split, taken, (days, cycles), program);
                if (choices.Contains(null) || taken.Contains((days, cycles)) && !parted)
                {
                    continue;
                }

                (long, long, long) next = (
                    sum.Short + choices.Sum(c => c!.Shortfall),
                    sum.Cost + choices.Sum(c => c!.CostLitres) + (of.Profile.Programs > 1 ? (kinds - 1) * PriceOfKindsTogether(of) : 0),
                    sum.Settings + days.Settings + cycles);
                Extend(of, split, program + 1, next, [.. taken, (days, cycles)], all);
            }
        }
    }

    /// <summary>Deep roots and shallow ones in one program: 2 % of what the controller's zones cost at least (docs/planning.md).</summary>
    private static long PriceOfKindsTogether(ControllerCase of) =>
        (long)Math.Round(0.02 * of.Zones.Sum(z => z.Choices.Count == 0 ? 0 : z.Choices.Min(c => c.CostLitres)));

    /// <summary>
    /// What must run on one date: beyond 5.25 h (02:00 to 07:30, all of it permitted on these sites, less a quarter of an hour) an hour
    /// costs 2 %. Daily programs, weekdays, odd or even dates and intervals without a common divisor meet sooner or later
    /// (docs/planning.md).
    /// </summary>
    private static long PriceOutsideEarlyHours(ControllerCase of, List<List<int>> split, List<(WaterDays Days, int Cycles)> taken)
    {
        int[] seconds = [.. split.Select((zones, p) => zones.Sum(
            z => of.Zones[z].Choices.First(c => c.Days == taken[p].Days && c.Cycles == taken[p].Cycles).RunSeconds * taken[p].Cycles))];
        int Longest(Func<WaterDays, bool> kind) => taken.Select((t, p) => kind(t.Days) ? seconds[p] : 0).Max();
        int always = Longest(d => d.IsDaily) + Longest(d => !d.IsDaily && d.Family == DayRuleKind.DaysOfWeek) + Longest(
            d => d.Family == DayRuleKind.Odd);
        int most = Math.Max(always, seconds.Max());
        for (int days = 2; days <= 8; days++)
        {
            int own = Longest(d => d.Family == DayRuleKind.Interval && d.Length == days);
            most = Math.Max(most, always + own);
            for (int other = days + 1; other <= 8; other++)
            {
                bool meet = !Enumerable.Range(2, 7).Any(n => days % n == 0 && other % n == 0);
                most = Math.Max(most, meet ? always + own + Longest(d => d.Family == DayRuleKind.Interval && d.Length == other) : 0);
            }
        }

        long minutes = Math.Max(0, (most - (21 * 900) + 59) / 60);
        return minutes * Math
            .Max(1, (long)Math.Round(0.02 / 60 * of.Zones.Sum(z => z.Choices.Count == 0 ? 0 : z.Choices.Min(c => c.CostLitres))));
    }

    /// <summary>Whether the program already taken with these days and starts has roots of the same kind, or of both.</summary>
    private static bool OfOneKind(ControllerCase of, List<List<int>> split, List<(WaterDays Days, int Cycles)> taken,
        (WaterDays Days, int Cycles) same, int program) =>
        split[taken.IndexOf(same)].Concat(split[program]).Select(z => of.Zones[z].Zone.Planting.RootDepthM >= 0.6).Distinct().Count() == 1
        || split[taken.IndexOf(same)].Select(z => of.Zones[z].Zone.Planting.RootDepthM >= 0.6).Distinct().Count() > 1;

    /// <summary>All ways to split 0 .. n-1 into groups.</summary>
    private static IEnumerable<List<List<int>>> Splits(int n)
    {
        if (n == 0)
        {
            yield return [];
            yield break;
        }

        foreach (List<List<int>> smaller in Splits(n - 1))
        {
            for (int group = 0; group < smaller.Count; group++)
            {
                yield return [.. smaller.Select((g, i) => i == group ? [.. g, n - 1] : g)];
            }

            yield return [.. smaller, [n - 1]];
        }
    }
}
