namespace Valvewright.Engine.Weather;

/// <summary>What reaches the ground of rain and snow, day by day, and when nothing grows for cold.</summary>
/// <remarks>
/// Degree-day melt: precipitation on a day with a mean under 1 degree C is snow (US National Weather Service training, SNOW-17: "good
/// default value for PXTEMP is 1oC"), and 3.5 mm of it melts per degree C of the mean above 0 (Kuusisto 1980, Nordic Hydrology 11:235: 3.51
/// in the open). Soil counts as frozen while the mean of five days is below 0 degrees C (rule of thumb): what falls runs off. Days without
/// a temperature count as warm.
/// </remarks>
public sealed class SnowCover
{
    private const double SnowBelowC = 1;
    private const double MeltMmPerDegree = 3.5;
    private const int FrozenDays = 5;

    private SnowCover(double[] liquidMm, bool[] rests)
    {
        LiquidMm = liquidMm;
        Rests = rests;
    }

    /// <summary>Rain and meltwater by day, mm.</summary>
    public double[] LiquidMm { get; }

    /// <summary>By day, whether snow lies or the soil is frozen: plants use nothing.</summary>
    public bool[] Rests { get; }

    /// <summary>The snow of a climate that begins without any.</summary>
    public static SnowCover Of(Climate climate)
    {
        ArgumentNullException.ThrowIfNull(climate);
        if (climate.MeanC is not { } mean)
        {
            return new SnowCover(climate.RainMm, new bool[climate.Days]);
        }

        double[] liquid = new double[climate.Days];
        bool[] rests = new bool[climate.Days];
        double snow = 0;
        for (int day = 0; day < liquid.Length; day++)
        {
            double rain = climate.RainMm[day], degrees = mean[day];
            double fallen = degrees < SnowBelowC ? rain : 0;
            double melt = degrees > 0 ? Math.Min(snow, MeltMmPerDegree * degrees) : 0;
            snow += fallen - melt;
            bool frozen = IsFrozen(mean, day);
            rests[day] = frozen || snow > 0;
            liquid[day] = frozen ? 0 : rain - fallen + melt;
        }

        return new SnowCover(liquid, rests);
    }

    private static bool IsFrozen(double[] mean, int day)
    {
        if (day + 1 < FrozenDays)
        {
            return false;
        }

        double sum = 0;
        for (int d = day - FrozenDays + 1; d <= day; d++)
        {
            sum += mean[d];
        }

        return sum < 0;
    }
}
