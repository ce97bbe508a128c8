using Valvewright.Planning.Choices;
using Valvewright.Planning.Programs;

namespace Valvewright.Planning.Tests;

/// <summary>
/// Best programs of one controller by trying everything: every way to split the stations into programs, every spread of days and
/// number of starts for each, every choice. No solver, no model; only for a handful of stations.
/// </summary>
internal static class BruteForce
{
    /// <summary>Least stress, least water at that stress, least settings at that stress within the water's tolerance; null where nothing fits.</summary>
    public static (long Stress, long Water, long Settings)? Best(ControllerCase of, double waterTolerance)
    {
        List<(long Stress, long Water, long Settings)> all = [];
        foreach (List<List<int>> split in Splits(of.Zones.Count).Where(s => s.Count <= of.Profile.Programs))
        {
            Extend(of, split, 0, (0, 0, 0), [], all);
        }

        if (all.Count == 0)
        {
            return null;
        }

        long stress = all.Min(a => a.Stress);
        long water = all.Where(a => a.Stress == stress).Min(a => a.Water);
        long settings = all.Where(a => a.Stress == stress && a.Water <= water + (long)(water * waterTolerance)).Min(a => a.Settings);
        return (stress, water, settings);
    }

    private static void Extend(
        ControllerCase of, List<List<int>> split, int program, (long Stress, long Water, long Settings) sum, List<(WaterDays Days, int Cycles)> taken,
        List<(long, long, long)> all)
    {
        if (program == split.Count)
        {
            all.Add(sum);
            return;
        }

        foreach (WaterDays days in of.Offered)
        {
            for (int cycles = 1; cycles <= of.Profile.StartTimesPerProgram; cycles++)
            {
                Choice?[] choices = [.. split[program].Select(z => of.Zones[z].Choices.FirstOrDefault(c => c.Days == days && c.Cycles == cycles))];
                if (choices.Contains(null) || taken.Contains((days, cycles)))
                {
                    continue;
                }

                (long, long, long) next = (
                    sum.Stress + choices.Sum(c => c!.Shortfall),
                    sum.Water + choices.Sum(c => c!.CostLitres),
                    sum.Settings + days.Settings + cycles);
                Extend(of, split, program + 1, next, [.. taken, (days, cycles)], all);
            }
        }
    }

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
