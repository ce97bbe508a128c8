using Valvewright.Engine.Needs;
using Valvewright.Engine.Weather;

namespace Valvewright.App.Pages.Needs;

/// <summary>What a zone needs, beside the rain of each of the 52 weeks.</summary>
/// <param name="Need">The needs.</param>
/// <param name="RainMeanMm">Mean rain of each week.</param>
/// <param name="RainDryMm">Rain of each week that 2 years in 10 fall short of.</param>
public sealed record ZoneWeeks(ZoneNeed Need, ListOf<double> RainMeanMm, ListOf<double> RainDryMm)
{
    private const int Weeks = 52;
    private const double DryYear = 0.2;

    /// <summary>Adds the rain of the same years.</summary>
    public static ZoneWeeks Of(ZoneNeed need, ListOf<Climate> years)
    {
        double[][] rain = [.. years.Select(ByWeek)];
        return new ZoneWeeks(
            need,
            Enumerable.Range(0, Weeks).Select(w => rain.Average(y => y[w])).ToListOf(),
            Enumerable.Range(0, Weeks).Select(w => YearRange.Quantile([.. rain.Select(y => y[w])], DryYear)).ToListOf());
    }

    private static double[] ByWeek(Climate year)
    {
        double[] sums = new double[Weeks];
        for (int day = 0; day < year.Days; day++)
        {
            sums[WeekDemand.WeekOf(year.DateOf(day)) - 1] += year.RainMm[day];
        }

        return sums;
    }
}
