using System.Globalization;
using NodaTime.Text;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Quantities;

namespace Valvewright.Cli.Output;

/// <summary>Amounts, times and dates in the units and clock style of a site.</summary>
internal sealed class SiteWords(UnitSystem units, ClockStyle clock)
{
    /// <summary>The words of a site.</summary>
    public static SiteWords Of(Site site) => new(site.Units, site.Clock);

    private bool Us => units == UnitSystem.UsCustomary;

    /// <summary>Unit of depths of water.</summary>
    public string DepthUnit => Us ? "in" : "mm";

    /// <summary>Unit of volumes of water.</summary>
    public string VolumeUnit => Us ? "gal" : "m3";

    /// <summary>A depth of a year or so, without its unit.</summary>
    public string Depth(double mm) => Us ? Number(mm / UsUnits.MmPerInch, 1) : Number(mm, 0);

    /// <summary>A depth of a watering or a week, without its unit.</summary>
    public string FineDepth(double mm) => Us ? Number(mm / UsUnits.MmPerInch, 2) : Number(mm, 1);

    /// <summary>A depth of a watering, with its unit.</summary>
    public string SmallDepth(double mm) => $"{FineDepth(mm)} {DepthUnit}";

    /// <summary>A flow with its unit.</summary>
    public string Flow(double lpm) => Us ? $"{Number(lpm / UsUnits.LitresPerGallon, 1)} gpm" : $"{Number(lpm, 1)} L/min";

    /// <summary>How far a rule is broken.</summary>
    public string Figure(BreachFigure figure)
    {
        Func<double, string> show = figure.Measure switch
        {
            BreachMeasure.DepthMm => SmallDepth,
            BreachMeasure.FlowLpm => Flow,
            BreachMeasure.VolumeL => liters => $"{Volume(liters / 1000)} {VolumeUnit}",
            BreachMeasure.StartsPerHour => starts => $"{Number(starts, 0)} starts",
            _ => seconds => Duration((long)seconds),
        };
        return figure.Allowed > 0 ? $"{show(figure.Found)}, {show(figure.Allowed)} allowed" : show(figure.Found);
    }

    /// <summary>A volume of a year without its unit.</summary>
    public string Volume(double cubicMetres) => Us ? (cubicMetres * 1000 / UsUnits.LitresPerGallon).ToString("#,0", CultureInfo.InvariantCulture) : Number(cubicMetres, cubicMetres < 100 ? 1 : 0);

    /// <summary>A time of day; seconds only where there are any.</summary>
    public string Time(LocalTime time)
    {
        string seconds = time.Second == 0 ? "" : ":ss";
        return clock == ClockStyle.Hours24
            ? LocalTimePattern.CreateWithInvariantCulture($"HH:mm{seconds}").Format(time)
            : LocalTimePattern.CreateWithInvariantCulture($"h:mm{seconds} tt").Format(time).ToLowerInvariant();
    }

    /// <summary>A time of day to the minute, later rather than earlier: by then it has happened.</summary>
    public string TimeBy(LocalTime time) => Time(time.Second == 0 ? time : new LocalTime(time.Hour, time.Minute).PlusMinutes(1));

    /// <summary>Minutes and seconds: <c>12 min</c>, <c>1 min 30 s</c>.</summary>
    public static string Duration(long seconds) => (seconds / 60, seconds % 60) switch
    {
        (0, var s) => $"{s} s",
        (var m, 0) => $"{m} min",
        var (m, s) => $"{m} min {s} s",
    };

    /// <summary>Wed 8 Apr 2026.</summary>
    public static string Date(LocalDate date) => LocalDatePattern.CreateWithInvariantCulture("ddd d MMM uuuu").Format(date);

    /// <summary>8 Apr.</summary>
    public static string Date(AnnualDate date) => LocalDatePattern.CreateWithInvariantCulture("d MMM").Format(date.InYear(2000));

    /// <summary>Water days in words.</summary>
    public static string Days(DayRule? days) => days switch
    {
        null => "no water days",
        DaysOfWeek { Days.Count: 7 } => "every day",
        DaysOfWeek week => string.Join(" ", week.Days.Order().Select(d => d.ToString()[..3])),
        OddDays => "odd dates",
        EvenDays => "even dates",
        EveryNDays { Days: 1 } => "every day",
        EveryNDays every => $"every {every.Days} days from {Date(every.Anchor)}",
        _ => throw new NotSupportedException($"Water days of kind {days.Kind}."),
    };

    /// <summary>When a controller is on.</summary>
    public static string Season(ControllerPlan plan) => plan.Visits.Count == 0
        ? $"on all year at {plan.Settings.PercentAdjust} %"
        : string.Join(", ", plan.Visits.Select(v => Together(v.Percent == 0 ? $"off on {Date(v.Date)}" : $"{v.Percent} % on {Date(v.Date)}")));

    /// <summary>The same words, not to be parted at the end of a line.</summary>
    public static string Together(string words) => words.Replace(' ', '\u00a0');

    /// <summary>A figure, or a dash where there is none.</summary>
    public static string Number(double value, int decimals) =>
        double.IsNaN(value) ? "-" : value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
}
