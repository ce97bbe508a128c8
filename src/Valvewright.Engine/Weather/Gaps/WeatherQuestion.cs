using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Weather.Gaps;

/// <summary>What is wrong with a value.</summary>
public enum WeatherFault
{
    /// <summary>Outside what a station can measure.</summary>
    OutOfRange,

    /// <summary>The highest temperature is below the lowest.</summary>
    TemperaturesReversed,

    /// <summary>More radiation than a clear sky lets through.</summary>
    AboveClearSky,

    /// <summary>Less radiation than the thickest cloud lets through.</summary>
    BelowCloud,

    /// <summary>Dew point far above the lowest temperature: dew would have formed, and warmed the air.</summary>
    DewPointAboveLowest,

    /// <summary>The highest relative humidity is below the lowest.</summary>
    HumidityReversed,

    /// <summary>No wind at all, or the same wind, for days on end: the gauge is stuck.</summary>
    WindStuck,

    /// <summary>Possible, but seldom seen.</summary>
    Unlikely,

    /// <summary>A whole year of a sensor reads high or low.</summary>
    SensorDrift,
}

/// <summary>A value that cannot be right, or is doubtful.</summary>
/// <param name="Date">Its day; for a whole year, the first.</param>
/// <param name="Variable">What it claims to be.</param>
/// <param name="Fault">What is wrong.</param>
/// <param name="Found">The value, with its unit.</param>
/// <param name="Expected">What would be possible.</param>
/// <param name="Refused">True when it counts as not measured and an estimate takes its place; false when it was used all the same.</param>
public sealed record WeatherQuestion(
    LocalDate Date, WeatherVariable Variable, WeatherFault Fault, Sentence Found, Sentence Expected, bool Refused);

/// <summary>Neighboring days with the same question.</summary>
/// <param name="First">The question of the first day.</param>
/// <param name="To">The last day.</param>
public readonly record struct QuestionRun(WeatherQuestion First, LocalDate To)
{
    /// <summary>How many days.</summary>
    public int Days => Period.DaysBetween(First.Date, To) + 1;

    /// <summary>The runs of a list of questions, those of refused values first, then by variable and date.</summary>
    public static ListOf<QuestionRun> Of(IEnumerable<WeatherQuestion> questions)
    {
        List<QuestionRun> runs = [];
        foreach (WeatherQuestion question in questions.OrderBy(q => !q.Refused).ThenBy(q => q.Variable).ThenBy(q => q.Fault)
            .ThenBy(q => q.Date))
        {
            if (runs.Count > 0 && runs[^1] is var last && IsNext(last, question))
            {
                runs[^1] = last with { To = question.Date };
            }
            else
            {
                runs.Add(new(question, question.Date));
            }
        }

        return runs.ToListOf();
    }

    private static bool IsNext(QuestionRun run, WeatherQuestion question) =>
        (run.First.Variable, run.First.Fault, run.First.Refused) == (question.Variable, question.Fault, question.Refused)
        && (question.Date == run.To || question.Date == run.To.PlusDays(1));
}
