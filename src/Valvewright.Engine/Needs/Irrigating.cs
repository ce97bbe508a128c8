using Valvewright.Engine.Values;

namespace Valvewright.Engine.Needs;

/// <summary>Which part of the year asks for irrigation.</summary>
public static class Irrigating
{
    /// <summary>A week that asks for less than this, net, 8 years in 10, can do without: less than one light watering.</summary>
    public const double LeastWeekMm = 1.0;

    /// <summary>
    /// All of the year but its longest run of weeks that can do without, counted around the new year.
    /// </summary>
    /// <returns>Null when every week can do without.</returns>
    public static PeriodOfYear? SeasonOf(ListOf<WeekDemand> weeks)
    {
        ArgumentNullException.ThrowIfNull(weeks);
        int count = weeks.Count;
        bool[] without = [.. weeks.Select(w => w.NetMm.EightInTen < LeastWeekMm)];
        if (!without.Contains(false))
        {
            return null;
        }

        int longest = 0, first = 0, run = 0;
        for (int i = 0; i < 2 * count; i++)
        {
            run = without[i % count] ? run + 1 : 0;
            if (run > longest)
            {
                longest = run;
                first = i - run + 1;
            }
        }

        if (longest == 0)
        {
            return PeriodOfYear.WholeYear;
        }

        int from = (first + longest) % count;
        int to = (first - 1 + count) % count;
        return new PeriodOfYear(WeekDemand.BeginOf(weeks[from].Week), WeekDemand.EndOf(weeks[to].Week));
    }
}
