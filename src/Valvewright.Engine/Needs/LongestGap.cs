using Valvewright.Engine.Balance;

namespace Valvewright.Engine.Needs;

/// <summary>How many days apart waterings may be.</summary>
public static class LongestGap
{
    /// <summary>Gaps beyond this are all the same: once a quarter is no schedule.</summary>
    public const int Limit = 91;

    /// <summary>
    /// The largest n of "every n days" that no stretch of the days goes past allowed depletion with: a watering fills every root zone at
    /// the end of its day, then n - 1 days follow without one.
    /// </summary>
    /// <returns>1 to <see cref="Limit"/>.</returns>
    public static int Of(ZoneDays days, Func<int, bool> counts)
    {
        ArgumentNullException.ThrowIfNull(days);
        ArgumentNullException.ThrowIfNull(counts);
        int least = Limit;
        for (int start = 0; start < days.Days; start++)
        {
            if (!counts(start))
            {
                continue;
            }

            double depletion = 0;
            int dry = 0;
            while (dry < least - 1 && start + dry < days.Days)
            {
                int step = days.Lead + start + dry;
                depletion = Math.Max(0, depletion + days.RootUseMm[step] - days.RainInMm[step]);
                if (depletion > days.ReadilyMm[step])
                {
                    least = dry + 1;
                    break;
                }

                dry++;
            }
        }

        return least;
    }
}
