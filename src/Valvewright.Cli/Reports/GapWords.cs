using Valvewright.Engine.Weather.Gaps;

namespace Valvewright.Cli.Reports;

/// <summary>What was missing from a weather record, and what stands in its place, in words.</summary>
internal static class GapWords
{
    public static string Of(WeatherVariable variable) => variable switch
    {
        WeatherVariable.Temperature => "temperature",
        WeatherVariable.Humidity => "humidity",
        WeatherVariable.Radiation => "radiation",
        WeatherVariable.Wind => "wind",
        WeatherVariable.Rain => "rain",
        WeatherVariable.ReferenceEvapotranspiration => "ETo",
        _ => throw new ArgumentOutOfRangeException(nameof(variable), variable, null),
    };

    public static string Of(FillMethod method) => method switch
    {
        FillMethod.Interpolated => "filled along a line between measured days",
        FillMethod.TimeOfYearMean => "filled with the mean of that time of year",
        FillMethod.Published => "taken as the source publishes it",
        FillMethod.FromLowestTemperature => "estimated from the lowest temperature (FAO-56 eq. 48)",
        FillMethod.FromSunshine => "from hours of sunshine (FAO-56 eq. 35)",
        FillMethod.FromTemperatureRange => "estimated from the range of temperature (FAO-56 eq. 50)",
        FillMethod.MeanOfRecord => "taken as the mean of the record",
        FillMethod.WorldMean => "taken as the world-wide mean (FAO-56 chapter 3)",
        FillMethod.NotNeeded => "not needed (Hargreaves-Samani)",
        FillMethod.MedianYear => "filled from the year whose rain on these dates is the median",
        FillMethod.TakenAsNone => "taken as none",
        _ => throw new ArgumentOutOfRangeException(nameof(method), method, null),
    };
}
