using Valvewright.Engine.Balance;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Needs;

/// <summary>Demand week by week, over the years of record.</summary>
public static class WeeklyDemand
{
    private const int Weeks = 52;

    /// <summary>The 52 weeks of a zone.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="years">Years of record, by day.</param>
    /// <param name="steps">The same years in the steps of the zone's balance.</param>
    /// <param name="grossPerNet">Run-time multiplier over the part that reaches the ground.</param>
    /// <remarks>Net demand is the minimum water: it holds back until the store is used up and counts rain that the store can
    /// keep.</remarks>
    public static ListOf<WeekDemand> Of(Zone zone, IReadOnlyList<ZoneDays> years, IReadOnlyList<ZoneDays> steps, double grossPerNet)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(years);
        ArgumentNullException.ThrowIfNull(steps);
        List<double>[] use = Lists(), net = Lists();
        for (int year = 0; year < years.Count; year++)
        {
            AddWeeks(use, years[year], years[year].WantedMm[years[year].Lead..]);
            AddWeeks(net, years[year], MinimumWater.Of(zone, steps[year]).NetByDayMm);
        }

        return Enumerable.Range(1, Weeks).Select(week => WeekOf(week, use[week - 1], net[week - 1], grossPerNet)).ToListOf();
    }

    private static WeekDemand WeekOf(int week, List<double> use, List<double> net, double grossPerNet)
    {
        YearRange netMm = RangeOf(net);
        return new WeekDemand(week, WeekDemand.BeginOf(week), RangeOf(use), netMm, netMm.Times(grossPerNet));
    }

    private static YearRange RangeOf(List<double> years) => years.Count == 0 ? new YearRange(0, 0, 0) : YearRange.LargerIsWorse(years);

    private static List<double>[] Lists() => [.. Enumerable.Range(0, Weeks).Select(_ => new List<double>())];

    private static void AddWeeks(List<double>[] weeks, ZoneDays year, double[] byDay)
    {
        double[] sums = new double[Weeks];
        bool[] seen = new bool[Weeks];
        for (int day = 0; day < byDay.Length; day++)
        {
            int week = WeekDemand.WeekOf(year.Climate.DateOf(day)) - 1;
            sums[week] += byDay[day];
            seen[week] = true;
        }

        for (int week = 0; week < Weeks; week++)
        {
            if (seen[week])
            {
                weeks[week].Add(sums[week]);
            }
        }
    }
}
