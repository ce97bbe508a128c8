using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Weather.Batch;

/// <summary>
/// The days of one record that have every input measured, gathered to be computed together; they are nearly all days of a full station.
/// </summary>
internal sealed class MeasuredDays(Place place, double windHeightM, EtoOptions options)
{
    private static readonly (VapourSource Source, EtoMethod Method)[] Methods =
    [
        (VapourSource.VapourPressure, EtoMethod.VapourMeasured),
        (VapourSource.DewPoint, EtoMethod.VapourFromDewPoint),
        (VapourSource.HumidityRange, EtoMethod.VapourFromHumidityRange),
        (VapourSource.HighestHumidity, EtoMethod.VapourFromHighestHumidity),
        (VapourSource.MeanHumidity, EtoMethod.VapourFromMeanHumidity),
    ];

    private readonly List<(int Index, DailyWeather Day)>[] bySource = [.. Methods.Select(_ => new List<(int, DailyWeather)>())];

    /// <summary>Takes a day in if it has all inputs and the batch knows the form asked for; false leaves it to the caller.</summary>
    public bool TryAdd(int index, DailyWeather day)
    {
        if (options.ClearSky != ClearSkyForm.Simple || double.IsNaN(day.TmaxC + day.TminC + day.RadiationMjM2 + day.WindMs))
        {
            return false;
        }

        foreach (VapourSource source in options.VapourSources)
        {
            if (!double.IsNaN(Humidity(day, source) + (source == VapourSource.HumidityRange ? day.RhMinPercent : 0)))
            {
                bySource[(int)source].Add((index, day));
                return true;
            }
        }

        return false;
    }

    /// <summary>Computes all days taken in and puts each where it belongs.</summary>
    public void Compute(DailyEto[] results)
    {
        foreach ((VapourSource source, EtoMethod method) in Methods)
        {
            List<(int Index, DailyWeather Day)> days = bySource[(int)source];
            if (days.Count == 0)
            {
                continue;
            }

            double[] eto = new double[days.Count];
            EtoBatch.PenmanMonteith(
                new StationDays
                {
                    LatitudeDeg = Column(days, _ => place.LatitudeDeg),
                    ElevationM = Column(days, _ => place.ElevationM),
                    DayOfYear = Column(days, d => d.Date.DayOfYear),
                    TmaxC = Column(days, d => d.TmaxC),
                    TminC = Column(days, d => d.TminC),
                    Humidity = Column(days, d => Humidity(d, source)),
                    LowestHumidity = Column(days, d => d.RhMinPercent),
                    Vapour = source,
                    RadiationMjM2 = Column(days, d => d.RadiationMjM2),
                    WindMs = Column(days, d => d.WindMs),
                    WindFactor = Psychrometrics.WindFactor(options.WindHeightM ?? windHeightM),
                },
                options,
                eto);
            for (int i = 0; i < eto.Length; i++)
            {
                (int index, DailyWeather day) = days[i];
                results[index] = new(
                    day.Date, eto[i], EtoMethod.PenmanMonteith | method | EtoMethod.RadiationMeasured | EtoMethod.WindMeasured);
            }
        }
    }

    private static double Humidity(DailyWeather day, VapourSource source) => source switch
    {
        VapourSource.VapourPressure => day.VapourPressureKpa,
        VapourSource.DewPoint => day.DewPointC,
        VapourSource.MeanHumidity => day.RhMeanPercent,
        _ => day.RhMaxPercent,
    };

    private static double[] Column(List<(int Index, DailyWeather Day)> days, Func<DailyWeather, double> value)
    {
        double[] column = new double[days.Count];
        for (int i = 0; i < column.Length; i++)
        {
            column[i] = value(days[i].Day);
        }

        return column;
    }
}
