using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather.Batch;
using Valvewright.Engine.Weather.Gaps;

namespace Valvewright.Engine.Weather;

/// <summary>A record turned into reference ET and rain for every day, with all that was not measured.</summary>
/// <param name="Climate">Reference ET and rain, no day missing.</param>
/// <param name="Days">Each day's reference ET and how it came about.</param>
/// <param name="Gaps">What was filled, and how.</param>
/// <param name="Questions">Values that cannot be right, or hardly.</param>
public sealed record BuiltClimate(Climate Climate, ListOf<DailyEto> Days, GapReport Gaps, ListOf<WeatherQuestion> Questions)
{
    /// <summary>A year with more filled days than this is no witness.</summary>
    public const int MostFilledDaysOfYear = 36;

    /// <summary>The years to plan with and to prove on; years with more than a tenth of their days filled are left out.</summary>
    public YearSplit Split(double latitudeDeg) =>
        YearSplit.Of(Climate, latitudeDeg, y => Gaps.FilledDays(y.From, y.To) <= MostFilledDaysOfYear);
}

/// <summary>Turns a weather record into a climate without gaps, never silently.</summary>
public static class ClimateBuilder
{
    // A year of wind says what the place's own mean is; less may be one season only.
    private const int FewestDaysForMeanWind = 365;
    private const double LowestPlaceM = -500;
    private const double HighestPlaceM = 9000;

    // Below, the logarithmic profile of eq. 47 breaks down; above, no station measures.
    private const double LowestWindHeightM = 0.5;
    private const double HighestWindHeightM = 200;

    /// <summary>Computes reference ET for every day from the first date of the record to its last, fills what is missing and reports
    /// it.</summary>
    /// <param name="record">The record; dates must rise, some may be absent.</param>
    /// <param name="options">Choices for reference ET; null takes the record's.</param>
    /// <exception cref="ArgumentException">No days, dates that do not rise, or no day from which reference ET could be found.</exception>
    public static BuiltClimate Build(WeatherRecord record, EtoOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(record);
        options ??= record.Eto;
        double windHeightM = options.WindHeightM ?? record.WindHeightM;
        AssertPossible(record, windHeightM);
        List<WeatherQuestion> questions = [];
        DailyWeather[] days = EveryDay(record, new Screening(record.Place, windHeightM, questions));
        WholeRecord.ScreenWind(days, questions);
        WholeRecord.QuestionSensors(days, record.Place, questions);
        LocalDate first = days[0].Date;
        GapCollector gaps = new(first, days.Length);
        DailyEto[] daily = EtoOfMeasuredWeather(days, record, options, gaps);
        double[] etoMm = [.. daily.Select(d => d.EtoMm)];
        if (Array.TrueForAll(etoMm, double.IsNaN))
        {
            throw new ArgumentException(
                $"No day of {record.Station} has both temperatures or a published ETo: reference ET cannot be found.", nameof(record));
        }

        double[] rainMm = [.. days.Select(d => d.RainMm)];
        EtoFill.Fill(first, etoMm, daily, gaps);
        RainFill.Fill(first, rainMm, gaps);
        GapReport report = new(gaps.Runs(), days.Length, days.Length - record.Days.Count);
        return new(new Climate(first, etoMm, rainMm, MeansOf(days), [.. days.Select(d => d.TminC)]), daily.ToListOf(), report,
            questions.ToListOf());
    }

    /// <summary>(Tmax + Tmin) / 2 of every day (FAO-56 eq. 9), NaN where one is missing.</summary>
    private static double[] MeansOf(DailyWeather[] days) => [.. days.Select(d => (d.TmaxC + d.TminC) / 2)];

    /// <summary>Reference ET of every day that has enough of its own weather; NaN for the others.</summary>
    private static DailyEto[] EtoOfMeasuredWeather(DailyWeather[] days, WeatherRecord record, EtoOptions options, GapCollector gaps)
    {
        (EtoOptions ownWind, FillMethod windFill) = WithOwnWind(days, record.WindHeightM, options);
        DailyEto[] daily = new DailyEto[days.Length];
        DailyWeather[] filled = FillShortTemperatureGaps(days, options);
        MeasuredDays measured = new(record.Place, record.WindHeightM, ownWind);
        for (int day = 0; day < days.Length; day++)
        {
            if (measured.TryAdd(day, days[day]))
            {
                continue;
            }

            // Temperatures that were measured come first, then the source's own ETo, then filled temperatures.
            DailyEto eto = ReferenceEvapotranspiration.Of(days[day], record.Place, record.WindHeightM, ownWind);
            if (eto.Method == EtoMethod.None && !double.IsNaN(filled[day].TmaxC + filled[day].TminC))
            {
                eto = ReferenceEvapotranspiration.Of(filled[day], record.Place, record.WindHeightM, ownWind);
                eto = eto with { Method = eto.Method | EtoMethod.TemperatureFilled };
                gaps.Add(WeatherVariable.Temperature, day, FillMethod.Interpolated);
            }

            daily[day] = eto;
            NoteEstimates(eto.Method, day, windFill, gaps);
        }

        measured.Compute(daily);
        return daily;
    }

    private static void AssertPossible(WeatherRecord record, double windHeightM)
    {
        Place place = record.Place;
        if (WholeRecord.HasHumidityAsFraction(record.Days))
        {
            throw new ArgumentException(
                $"{record.Station}: relative humidity never passes {WholeRecord.HighestFraction}: it is a fraction, and percent are expected.", nameof(record));
        }

        if (!(Math.Abs(place.LatitudeDeg) <= 90))
        {
            throw new ArgumentException($"Latitude {place.LatitudeDeg}: expected -90 to 90 degrees.", nameof(record));
        }

        if (!(place.ElevationM is >= LowestPlaceM and <= HighestPlaceM))
        {
            throw new ArgumentException($"Elevation {place.ElevationM} m: expected {LowestPlaceM} to {HighestPlaceM} m.", nameof(record));
        }

        if (!(windHeightM is >= LowestWindHeightM and <= HighestWindHeightM))
        {
            throw new ArgumentException(
                $"Wind height {windHeightM} m: expected {LowestWindHeightM} to {HighestWindHeightM} m.", nameof(windHeightM));
        }
    }

    private static DailyWeather[] EveryDay(WeatherRecord record, Screening screening)
    {
        if (record.Days.Count == 0)
        {
            throw new ArgumentException($"{record.Station} has no days.", nameof(record));
        }

        LocalDate first = record.Days[0].Date;
        int length = Period.DaysBetween(first, record.Days[^1].Date) + 1;
        List<DailyWeather> days = new(Math.Max(0, length));
        foreach (DailyWeather day in record.Days)
        {
            if (days.Count > 0 && day.Date <= days[^1].Date)
            {
                throw new ArgumentException(
                    $"{record.Station}: {day.Date:uuuu-MM-dd} follows {days[^1].Date:uuuu-MM-dd}; dates must rise.", nameof(record));
            }

            while (days.Count > 0 && days[^1].Date.PlusDays(1) < day.Date)
            {
                days.Add(new(days[^1].Date.PlusDays(1)));
            }

            days.Add(screening.Screen(day));
        }

        return [.. days];
    }

    private static (EtoOptions Options, FillMethod Method) WithOwnWind(DailyWeather[] days, double windHeightM, EtoOptions options)
    {
        if (options.AssumedWindMs is not null)
        {
            return (options, FillMethod.Stated);
        }

        double[] measured = [.. days.Select(d => d.WindMs).Where(w => !double.IsNaN(w))];
        if (measured.Length < FewestDaysForMeanWind)
        {
            return (options, FillMethod.WorldMean);
        }

        double mean = Psychrometrics.WindAt2M(measured.Average(), options.WindHeightM ?? windHeightM);
        return (options with { AssumedWindMs = mean }, FillMethod.MeanOfRecord);
    }

    /// <summary>A line across gaps of up to five days, but only on days that have something measured to go with it.</summary>
    private static DailyWeather[] FillShortTemperatureGaps(DailyWeather[] days, EtoOptions options)
    {
        double[] tmax = OnLines([.. days.Select(d => d.TmaxC)]);
        double[] tmin = OnLines([.. days.Select(d => d.TminC)]);
        DailyWeather[] filled = [.. days];
        for (int day = 0; day < days.Length; day++)
        {
            bool hasMax = !double.IsNaN(days[day].TmaxC);
            bool hasMin = !double.IsNaN(days[day].TminC);
            if ((hasMax && hasMin) || !(tmax[day] >= tmin[day]))
            {
                continue;
            }

            DailyWeather onLine = days[day] with { TmaxC = tmax[day], TminC = tmin[day] };
            if (hasMax || hasMin || !EtoInputs.HasOnlyTemperatures(onLine, options))
            {
                filled[day] = onLine;
            }
        }

        return filled;
    }

    private static double[] OnLines(double[] values)
    {
        double[] known = [.. values];
        foreach ((int start, int length) in Series.Runs(known))
        {
            for (int day = start; length <= EtoFill.LongestLine && day < start + length; day++)
            {
                values[day] = Series.OnLine(known, start, length, day);
            }
        }

        return values;
    }

    private static void NoteEstimates(EtoMethod method, int day, FillMethod windFill, GapCollector gaps)
    {
        if (method.HasFlag(EtoMethod.Published))
        {
            gaps.Add(WeatherVariable.ReferenceEvapotranspiration, day, FillMethod.Published);
        }

        if (method.HasFlag(EtoMethod.VapourFromTmin))
        {
            gaps.Add(WeatherVariable.Humidity, day, FillMethod.FromLowestTemperature);
        }

        if (method.HasFlag(EtoMethod.RadiationFromSunshine))
        {
            gaps.Add(WeatherVariable.Radiation, day, FillMethod.FromSunshine);
        }

        if (method.HasFlag(EtoMethod.RadiationFromTemperatureRange))
        {
            gaps.Add(WeatherVariable.Radiation, day, FillMethod.FromTemperatureRange);
        }

        if (method.HasFlag(EtoMethod.WindAssumed))
        {
            gaps.Add(WeatherVariable.Wind, day, windFill);
        }

        if (method.HasFlag(EtoMethod.HargreavesSamani))
        {
            gaps.Add(WeatherVariable.Humidity, day, FillMethod.NotNeeded);
            gaps.Add(WeatherVariable.Radiation, day, FillMethod.NotNeeded);
            gaps.Add(WeatherVariable.Wind, day, FillMethod.NotNeeded);
        }
    }
}
