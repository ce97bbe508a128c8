using Valvewright.Cli.Output;
using Valvewright.Engine.Weather;
using Valvewright.Engine.Weather.Gaps;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;

namespace Valvewright.Cli.Commands.Et;

/// <summary>One day of the answer.</summary>
/// <param name="Date">The day.</param>
/// <param name="EtoMm">Reference ET, mm.</param>
/// <param name="RainMm">Rain, mm.</param>
/// <param name="RainFilled">Whether the rain was not measured.</param>
/// <param name="Method">How reference ET came about.</param>
/// <param name="PublishedEtoMm">Reference ET as the source itself publishes it, mm; null where it does not.</param>
internal sealed record EtDay(LocalDate Date, double EtoMm, double RainMm, bool RainFilled, EtoMethod Method, double? PublishedEtoMm);

/// <summary>Sums of a month.</summary>
/// <param name="Year">The year.</param>
/// <param name="Month">The month, 1 to 12.</param>
/// <param name="Days">Days of the range in it.</param>
/// <param name="EtoMm">Reference ET, mm.</param>
/// <param name="RainMm">Rain, mm.</param>
/// <param name="FilledDays">Days on which reference ET or rain was filled.</param>
/// <param name="PublishedEtoMm">The source's own reference ET, mm; null unless it has every day.</param>
internal sealed record EtMonth(int Year, int Month, int Days, double EtoMm, double RainMm, int FilledDays, double? PublishedEtoMm);

/// <summary>The whole answer of <c>et</c>, as <c>--json</c> prints it.</summary>
/// <param name="Station">The station.</param>
/// <param name="Place">Where it stands.</param>
/// <param name="WindHeightM">Height of the wind measurement, m; null where none was measured.</param>
/// <param name="Layout">How the file was read.</param>
/// <param name="Source">Who publishes the weather.</param>
/// <param name="Notes">What was found and assumed on the way.</param>
/// <param name="Questions">Values that can hardly be right.</param>
/// <param name="Days">Day by day.</param>
/// <param name="Months">Sums by month.</param>
/// <param name="Gaps">What was not measured, and what is in its place.</param>
internal sealed record EtAnswer(
    string Station, Place Place, double? WindHeightM, string Layout, string Source, ListOf<WeatherNote> Notes,
        ListOf<WeatherQuestion> Questions,
    ListOf<EtDay> Days, ListOf<EtMonth> Months, ListOf<Gap> Gaps)
{
    private const EtoMethod Filled = EtoMethod.Interpolated | EtoMethod.TimeOfYearMean | EtoMethod.TemperatureFilled;

    /// <summary>The days from the first to the last that were asked for.</summary>
    /// <exception cref="ProblemsException">The record does not reach that far.</exception>
    public static EtAnswer Of(BuiltClimate built, WeatherReading reading, EtChoices choices)
    {
        Climate climate = built.Climate;
        LocalDate from = choices.From ?? climate.First, to = choices.To ?? climate.Last;
        bool outside = choices.Service is null ? from < climate.First || to > climate.Last : from > climate.Last || to < climate.First;
        if (outside)
        {
            throw new ProblemsException(new Problem(
                choices.File ?? "--fetch", 0, 0, $"{from:uuuu-MM-dd} to {to:uuuu-MM-dd}",
                    $"days from {climate.First:uuuu-MM-dd} to {climate.Last:uuuu-MM-dd}", null,
                "the weather does not reach over the days asked for"));
        }

        from = LocalDate.Max(from, climate.First);
        to = LocalDate.Min(to, climate.Last);
        bool[] rainFilled = new bool[climate.Days];
        foreach (Gap gap in built.Gaps.Gaps.Where(g => g.Variable == WeatherVariable.Rain))
        {
            Array.Fill(rainFilled, true, climate.DayOf(gap.From), gap.Days);
        }

        Dictionary<LocalDate, double> published = reading.Record!.Days.Where(d => !double.IsNaN(d.PublishedEtoMm)).ToDictionary(
            d => d.Date, d => d.PublishedEtoMm);
        EtDay[] days = [.. Enumerable.Range(climate.DayOf(from), Period.DaysBetween(from, to) + 1)
            .Select(day => new EtDay(climate.DateOf(day), climate.EtoMm[day], climate.RainMm[day], rainFilled[day], built.Days[day].Method,
                Known(published, climate.DateOf(day))))];
        EtMonth[] months = [.. days.GroupBy(d => (d.Date.Year, d.Date.Month)).Select(month => new EtMonth(
            month.Key.Year, month.Key.Month, month.Count(), month.Sum(d => d.EtoMm), month.Sum(d => d.RainMm), month.Count(IsFilled),
            month.All(d => d.PublishedEtoMm is not null) ? month.Sum(d => d.PublishedEtoMm) : null))];
        WeatherRecord record = reading.Record;
        return new EtAnswer(
            record.Station, record.Place, record.Days.Any(d => !double.IsNaN(d.WindMs)) ? record.WindHeightM : null, reading.Layout!.Value
                .Word(), record.Source, reading.Notes, built.Questions.Where(q => IsOf(q, from, to)).ToListOf(), days.ToListOf(),
                    months.ToListOf(),
            built.Gaps.Gaps.Where(g => g.From <= to && g.To >= from)
                .Select(g => g with { From = LocalDate.Max(g.From, from), To = LocalDate.Min(g.To, to) }).ToListOf());
    }

    /// <summary>Whether a question is about days that were asked for; one about a sensor is about its whole year.</summary>
    private static bool IsOf(WeatherQuestion question, LocalDate from, LocalDate to) =>
        question.Fault == WeatherFault.SensorDrift ? question.Date.Year >= from.Year && question.Date.Year <= to.Year
            : question.Date >= from && question.Date <= to;

    private static double? Known(Dictionary<LocalDate, double> published, LocalDate date) =>
        published.TryGetValue(date, out double mm) ? mm : null;

    private static bool IsFilled(EtDay day) => day.RainFilled || (day.Method & Filled) != 0;
}
