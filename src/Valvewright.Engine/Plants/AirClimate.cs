using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Plants;

/// <summary>How dry the air of a place is; some published plant factors depend on it.</summary>
public enum AirClimate
{
    /// <summary>Dry air in the growing season.</summary>
    Dry,

    /// <summary>Humid air in the growing season.</summary>
    Humid,
}

/// <summary>The air of a place, from its weather.</summary>
public static class AirClimates
{
    /// <summary>Rain over ETo from which a growing season counts as humid.</summary>
    /// <remarks>The upper limit of drylands in the aridity index of the United Nations Environment Programme (World Atlas of
    /// Desertification, 1992), which is a yearly figure. Taking the half-year that uses most is this program's judgment: where winters are
    /// wet and summers dry, plants live in dry air.</remarks>
    public const double HumidFrom = 0.65;

    private const int Months = 6;

    /// <summary>Rain over ETo in the six months that use most; NaN where no month is known.</summary>
    /// <param name="years">Years of weather, of any length.</param>
    public static double IndexOf(IReadOnlyList<Climate> years)
    {
        ArgumentNullException.ThrowIfNull(years);
        double[] eto = new double[12], rain = new double[12];
        int[] days = new int[12];
        foreach (Climate year in years)
        {
            for (int day = 0; day < year.Days; day++)
            {
                int month = year.DateOf(day).Month - 1;
                eto[month] += year.EtoMm[day];
                rain[month] += year.RainMm[day];
                days[month]++;
            }
        }

        int[] season = [.. Enumerable.Range(0, 12).Where(m => days[m] > 0).OrderByDescending(m => eto[m] / days[m]).Take(Months)];
        return season.Sum(m => rain[m] / days[m]) / season.Sum(m => eto[m] / days[m]);
    }

    /// <summary>Dry or humid, by <see cref="IndexOf"/>.</summary>
    public static AirClimate Of(IReadOnlyList<Climate> years) => IndexOf(years) >= HumidFrom ? AirClimate.Humid : AirClimate.Dry;
}
