using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Engine.Weather.Gaps;

namespace Valvewright.Records.Carrying;

/// <summary>Daily weather of a site without a gap, from the first year that is planned with or proven on.</summary>
/// <param name="Station">The station's name or the grid point.</param>
/// <param name="Place">Where it stands.</param>
/// <param name="Source">Who publishes it, with the licence where known.</param>
/// <param name="First">Date of the first value of each list.</param>
/// <param name="EtoMm">Reference ET by day, mm, to a hundredth.</param>
/// <param name="RainMm">Rain by day, mm, to a hundredth.</param>
/// <param name="TmaxC">Highest temperature by day, degrees C, to a tenth; NaN where not measured.</param>
/// <param name="TminC">Lowest temperature by day, degrees C, to a tenth; NaN where not measured.</param>
/// <param name="Years">Which years are planned with and which are held back for proofs.</param>
/// <param name="Filled">What was not measured, and what is in its place, over the whole record.</param>
/// <param name="Methods">How reference ET came about, and on how many days.</param>
public sealed record CarriedWeather(
    string Station, Place Place, string Source, LocalDate First, ListOf<double> EtoMm, ListOf<double> RainMm, ListOf<double> TmaxC,
        ListOf<double> TminC, YearSplit Years,
    ListOf<FilledDays> Filled, ListOf<EtoDays> Methods)
{
    /// <summary>Whether the file does not say where the station stands, or how high, and the site's own place stands for it.</summary>
    public bool IsPlaceAssumed { get; init; }

    /// <summary>Whether no one says how high the wind is measured, and a usual height stands for it.</summary>
    public bool IsWindHeightAssumed { get; init; }

    /// <summary>Values that cannot be right or are doubtful, over the whole record.</summary>
    public ListOf<QuestionedDays> Questioned { get; init; } = [];

    private const int DepthDigits = 2;
    private const int TemperatureDigits = 1;

    /// <summary>Packs a record and the climate that was built of it.</summary>
    public static CarriedWeather Of(WeatherRecord record, BuiltClimate built, YearSplit years)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(built);
        ArgumentNullException.ThrowIfNull(years);
        Climate whole = built.Climate;
        LocalDate first = years.Training.Concat(years.HeldBack).Min(y => y.From);
        Climate kept = whole.Between(LocalDate.Max(first, whole.First), whole.Last);
        double[] highest = new double[kept.Days], lowest = new double[kept.Days];
        Array.Fill(highest, double.NaN);
        Array.Fill(lowest, double.NaN);
        foreach (DailyWeather day in record.Days)
        {
            if (kept.DayOf(day.Date) is var number && number >= 0 && number < kept.Days)
            {
                (highest[number], lowest[number]) = (day.TmaxC, day.TminC);
            }
        }

        return new CarriedWeather(
            record.Station, record.Place, record.Source, kept.First, Rounded(kept.EtoMm, DepthDigits), Rounded(kept.RainMm, DepthDigits),
                Rounded(highest, TemperatureDigits),
            Rounded(lowest, TemperatureDigits), years,
            built.Gaps.Gaps.GroupBy(g => (g.Variable, g.Method))
                .Select(g => new FilledDays(g.Key.Variable, g.Key.Method, g.Sum(x => x.Days))).ToListOf(),
            built.Days.GroupBy(d => d.Method).Select(g => new EtoDays(g.Key, g.Count())).OrderByDescending(m => m.Days).ToListOf())
        {
            IsPlaceAssumed = record.IsPlaceAssumed,
            IsWindHeightAssumed = record.IsWindHeightAssumed,
            Questioned = built.Questions.GroupBy(q => (q.Variable, q.Fault, q.Refused))
                .Select(g => new QuestionedDays(
                    g.Key.Variable, g.Key.Fault, g.Key.Refused, g.Count(), g.Min(q => q.Date), g.Max(q => q.Date))).ToListOf(),
        };
    }

    /// <summary>The days as the engine takes them.</summary>
    public Climate ToClimate() =>
        new(First, [.. EtoMm], [.. RainMm], [.. TmaxC.Zip(TminC, (most, least) => (most + least) / 2)], [.. TminC]);

    /// <summary>The years to plan with, each on its own.</summary>
    public ListOf<Climate> Training()
    {
        Climate all = ToClimate();
        return Years.Training.Select(y => y.Of(all)).ToListOf();
    }

    /// <summary>The years to prove on, each on its own.</summary>
    public ListOf<Climate> HeldBack()
    {
        Climate all = ToClimate();
        return Years.HeldBack.Select(y => y.Of(all)).ToListOf();
    }

    private static ListOf<double> Rounded(double[] values, int digits) => values.Select(v => Math.Round(v, digits)).ToListOf();
}

/// <summary>Days on which something was not measured.</summary>
/// <param name="Variable">What was missing.</param>
/// <param name="Method">What is in its place.</param>
/// <param name="Days">On how many days.</param>
public sealed record FilledDays(WeatherVariable Variable, FillMethod Method, int Days);

/// <summary>Days on which the same thing is questioned.</summary>
/// <param name="Variable">What the values claim to be.</param>
/// <param name="Fault">What is wrong with them.</param>
/// <param name="IsRefused">Whether they were left out and estimated; false where they were used all the same.</param>
/// <param name="Days">On how many days; for a sensor that reads high or low, in how many years.</param>
/// <param name="From">The first.</param>
/// <param name="To">The last.</param>
public sealed record QuestionedDays(WeatherVariable Variable, WeatherFault Fault, bool IsRefused, int Days, LocalDate From, LocalDate To);

/// <summary>Days whose reference ET came about in one way.</summary>
/// <param name="Method">The formula and its inputs.</param>
/// <param name="Days">How many days.</param>
public sealed record EtoDays(EtoMethod Method, int Days);
