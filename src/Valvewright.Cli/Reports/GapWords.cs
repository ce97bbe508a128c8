using Valvewright.Engine.Values;
using Valvewright.Engine.Weather.Gaps;

namespace Valvewright.Cli.Reports;

/// <summary>What was missing from a weather record, and what was used instead, in words.</summary>
internal static class GapWords
{
    public static Sentence Of(WeatherVariable variable) => variable switch
    {
        WeatherVariable.Temperature => "temperature",
        WeatherVariable.Humidity => "humidity",
        WeatherVariable.Radiation => "radiation",
        WeatherVariable.Wind => "wind",
        WeatherVariable.Rain => "rain",
        WeatherVariable.ReferenceEvapotranspiration => "ETo",
        _ => throw new ArgumentOutOfRangeException(nameof(variable), variable, null),
    };

    public static Sentence Of(WeatherFault fault) => fault switch
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

    /// <summary>
    /// What is questioned: a line for each run of days left out, at most so many; a line for each year of a sensor that seems off; and one
    /// for all days on which the same thing is doubtful.
    /// </summary>
    public static IEnumerable<Sentence> Lines(ListOf<WeatherQuestion> questions, int most)
    {
        ListOf<QuestionRun> refused = QuestionRun.Of(questions.Where(q => q.Refused));
        foreach (QuestionRun run in refused.Take(most))
        {
            Sentence days = run.Days == 1 ? (Sentence)$"{run.First.Date:uuuu-MM-dd}"
                : (Sentence)$"{run.First.Date:uuuu-MM-dd} to {run.To:uuuu-MM-dd} ({run.Days} days)";
            yield return $"{Of(run.First.Variable)} left out and estimated, {days}: {Of(run.First.Fault)}: {run.First.Found}; expected {run.First.Expected}.";
        }

        if (refused.Count > most)
        {
            yield return $"and {refused.Skip(most).Sum(r => r.Days)} more days left out and estimated; \"valvewright et\" with --json lists every one.";
        }

        foreach (WeatherQuestion drift in questions.Where(q => q.Fault == WeatherFault.SensorDrift))
        {
            yield return $"{Of(drift.Variable)}, {Of(drift.Fault)}: {drift.Found}; expected {drift.Expected}.";
        }

        foreach (IGrouping<(WeatherVariable Variable, WeatherFault Fault), WeatherQuestion> doubts in questions
            .Where(q => !q.Refused && q.Fault != WeatherFault.SensorDrift).GroupBy(q => (q.Variable, q.Fault)))
        {
            int days = doubts.Count();
            Sentence when = days == 1 ? (Sentence)$"on {doubts.First().Date:uuuu-MM-dd}"
                : (Sentence)$"on {days} days from {doubts.Min(q => q.Date):uuuu-MM-dd} to {doubts.Max(q => q.Date):uuuu-MM-dd}, such as";
            yield return $"{Of(doubts.Key.Variable)} doubtful but used, {when} {doubts.First().Found}; expected {doubts.First().Expected}.";
        }
    }

    public static Sentence Of(FillMethod method) => method switch
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
