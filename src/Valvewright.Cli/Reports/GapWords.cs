using Valvewright.Engine.Values;
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

    public static string Of(WeatherFault fault) => fault switch
    {
        WeatherFault.OutOfRange => "outside what can be measured",
        WeatherFault.TemperaturesReversed => "the highest below the lowest",
        WeatherFault.AboveClearSky => "more than a clear sky lets through",
        WeatherFault.BelowCloud => "less than the thickest cloud lets through",
        WeatherFault.DewPointAboveLowest => "dew point far above the lowest temperature",
        WeatherFault.HumidityReversed => "the highest below the lowest",
        WeatherFault.WindStuck => "the gauge seems stuck",
        WeatherFault.Unlikely => "unlikely",
        WeatherFault.SensorDrift => "the sensor seems off",
        _ => throw new ArgumentOutOfRangeException(nameof(fault), fault, null),
    };

    /// <summary>One line a run of questioned days, at most so many, and a line for the rest.</summary>
    public static IEnumerable<string> Lines(ListOf<WeatherQuestion> questions, int most)
    {
        ListOf<QuestionRun> runs = QuestionRun.Of(questions);
        foreach (QuestionRun run in runs.Take(most))
        {
            WeatherQuestion first = run.First;
            string days = run.Days == 1 || first.Fault == WeatherFault.SensorDrift ? $"{first.Date:uuuu-MM-dd}" : $"{first.Date:uuuu-MM-dd} to {run.To:uuuu-MM-dd} ({run.Days} days)";
            string fate = first.Refused ? "left out and estimated" : "doubtful, used as it is";
            yield return $"{Of(first.Variable)} {fate}, {days}: {Of(first.Fault)}: {first.Found}; expected {first.Expected}.";
        }

        if (runs.Count > most)
        {
            yield return $"and {runs.Skip(most).Sum(r => r.Days)} more such days ({runs.Skip(most).Where(r => r.First.Refused).Sum(r => r.Days)} left out and estimated). \"valvewright et\" with --json lists every one.";
        }
    }

    public static string Of(FillMethod method) => method switch
    {
        FillMethod.Interpolated => "filled along a line between measured days",
        FillMethod.TimeOfYearMean => "filled with the mean of that time of year",
        FillMethod.Published => "taken as the source publishes it",
        FillMethod.FromLowestTemperature => "estimated from the lowest temperature (FAO-56 eq. 48)",
        FillMethod.FromSunshine => "from hours of sunshine (FAO-56 eq. 35)",
        FillMethod.FromTemperatureRange => "estimated from the range of temperature (FAO-56 eq. 50)",
        FillMethod.MeanOfRecord => "taken as the mean of the record",
        FillMethod.Stated => "taken as the survey states",
        FillMethod.WorldMean => "taken as the world-wide mean (FAO-56 chapter 3)",
        FillMethod.NotNeeded => "not needed (Hargreaves-Samani)",
        FillMethod.MedianYear => "filled from the year whose rain on these dates is the median",
        FillMethod.TakenAsNone => "taken as none",
        _ => throw new ArgumentOutOfRangeException(nameof(method), method, null),
    };
}
