using Valvewright.Engine.Weather;
using Valvewright.Engine.Weather.Gaps;

namespace Valvewright.Cli.Commands.Et;

/// <summary>Methods and fills in few words.</summary>
internal static class EtMethodWords
{
    private static readonly (EtoMethod Flag, Sentence Words)[] Words =
    [
        (EtoMethod.PenmanMonteith, "PM"),
        (EtoMethod.HargreavesSamani, "Hargreaves-Samani 1985"),
        (EtoMethod.Published, "as the source publishes it"),
        (EtoMethod.Interpolated, "on a line between neighboring days"),
        (EtoMethod.TimeOfYearMean, "mean of the time of year"),
        (EtoMethod.TemperatureFilled, "T filled"),
        (EtoMethod.VapourMeasured, "vap measured"),
        (EtoMethod.VapourFromDewPoint, "vap from dew point"),
        (EtoMethod.VapourFromHumidityRange, "vap from RH max/min"),
        (EtoMethod.VapourFromHighestHumidity, "vap from RH max"),
        (EtoMethod.VapourFromMeanHumidity, "vap from RH mean"),
        (EtoMethod.VapourFromTmin, "vap from Tmin"),
        (EtoMethod.RadiationMeasured, "Rs measured"),
        (EtoMethod.RadiationFromSunshine, "Rs from sunshine"),
        (EtoMethod.RadiationFromTemperatureRange, "Rs from Tmax-Tmin"),
        (EtoMethod.WindMeasured, "wind measured"),
        (EtoMethod.WindAssumed, "wind assumed"),
    ];

    public static Sentence Of(EtoMethod method) =>
        method == EtoMethod.None ? "not found" : Sentence.Together(Words.Where(w => method.HasFlag(w.Flag)).Select(w => w.Words), ", ");

    public static Sentence Of(WeatherVariable variable) => variable switch
    {
        WeatherVariable.Temperature => "Temperature",
        WeatherVariable.Humidity => "Humidity",
        WeatherVariable.Radiation => "Radiation",
        WeatherVariable.Wind => "Wind",
        WeatherVariable.Rain => "Rain",
        _ => "ETo",
    };

    public static Sentence Of(FillMethod method) => method switch
    {
        FillMethod.Interpolated => "on a line between neighboring days",
        FillMethod.TimeOfYearMean => "mean of the time of year over the record",
        FillMethod.Published => "as the source publishes it",
        FillMethod.FromLowestTemperature => "dew point taken near Tmin (FAO-56 eq. 48)",
        FillMethod.FromSunshine => "from hours of sunshine (FAO-56 eq. 35)",
        FillMethod.FromTemperatureRange => "from the temperature range (FAO-56 eq. 50)",
        FillMethod.MeanOfRecord => "mean of the record",
        FillMethod.Stated => "as stated",
        FillMethod.WorldMean => "2 m/s at 2 m, a world-wide mean (FAO-56 chapter 3)",
        FillMethod.NotNeeded => "not needed by Hargreaves-Samani",
        FillMethod.MedianYear => "the same dates of the year with the median rain",
        _ => "taken as no rain",
    };
}
