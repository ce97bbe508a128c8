using System.Globalization;
using NodaTime.Text;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Quantities;

namespace Valvewright.Files.Texts;

/// <summary>Amounts, times and dates in the units and clock style of a site and in a person's language.</summary>
/// <param name="units">The site's units.</param>
/// <param name="clock">The site's clock style.</param>
/// <param name="wording">The language.</param>
public sealed class SiteWords(UnitSystem units, ClockStyle clock, Wording wording)
{
    private const double SquareMetresPerSquareFoot = UsUnits.MPerFoot * UsUnits.MPerFoot;

    /// <summary>Whether amounts are in US customary units.</summary>
    public bool IsUs => units == UnitSystem.UsCustomary;

    /// <summary>The site's clock style.</summary>
    public ClockStyle Clock => clock;

    /// <summary>Unit of depths of water.</summary>
    public string DepthUnit => IsUs ? "in" : "mm";

    /// <summary>Unit of volumes of water.</summary>
    public string VolumeUnit => IsUs ? "gal" : "m³";

    /// <summary>Unit of flows.</summary>
    public string FlowUnit => IsUs ? "gpm" : "L/min";

    /// <summary>A depth as a number in the site's unit.</summary>
    public double DepthNumber(double mm) => IsUs ? mm / UsUnits.MmPerInch : mm;

    /// <summary>A volume as a number in the site's unit.</summary>
    public double VolumeNumber(double cubicMetres) => IsUs ? cubicMetres * 1000 / UsUnits.LitresPerGallon : cubicMetres;

    /// <summary>A flow as a number in the site's unit.</summary>
    public double FlowNumber(double lpm) => IsUs ? lpm / UsUnits.LitresPerGallon : lpm;

    /// <summary>A depth of a watering or a week, with its unit.</summary>
    public string Depth(double mm) => Of(DepthNumber(mm), IsUs ? 2 : 1, DepthUnit);

    /// <summary>A depth of a year or so, with its unit.</summary>
    public string LargeDepth(double mm) => Of(DepthNumber(mm), IsUs ? 1 : 0, DepthUnit);

    /// <summary>A rate of precipitation or intake.</summary>
    public string Rate(double mmPerHour) => Of(DepthNumber(mmPerHour), IsUs ? 2 : 1, IsUs ? "in/h" : "mm/h");

    /// <summary>A flow.</summary>
    public string Flow(double lpm) => Of(FlowNumber(lpm), 1, FlowUnit);

    /// <summary>A pressure.</summary>
    public string Pressure(double kpa) => IsUs ? Of(kpa / Units.Psi.Factor, 0, "psi") : Of(kpa, 0, "kPa");

    /// <summary>A volume of water.</summary>
    public string Volume(double cubicMetres) =>
        IsUs ? $"{wording.Whole(VolumeNumber(cubicMetres))} gal" : Of(cubicMetres, Math.Abs(cubicMetres) < 100 ? 1 : 0, "m³");

    /// <summary>An area.</summary>
    public string Area(double squareMetres) => IsUs ? Of(squareMetres / SquareMetresPerSquareFoot, 0, "sq ft") : Of(squareMetres, 0, "m²");

    /// <summary>A short length, such as a root depth or a spacing.</summary>
    public string Length(double metres) => IsUs ? Of(metres / UsUnits.MPerFoot, 1, "ft") : Of(metres, 2, "m");

    /// <summary>A time of day; seconds only where there are any.</summary>
    public string Time(LocalTime time)
    {
        string seconds = time.Second == 0 ? "" : ":ss";
        return clock == ClockStyle.Hours24
            ? LocalTimePattern.CreateWithInvariantCulture($"HH:mm{seconds}").Format(time)
            : LocalTimePattern.CreateWithInvariantCulture($"h:mm{seconds} tt").Format(time).ToLowerInvariant();
    }

    /// <summary>Minutes and seconds: <c>12 min</c>, <c>1 min 30 s</c>.</summary>
    public static string Duration(long seconds) => (seconds / 60, seconds % 60) switch
    {
        (0, var s) => $"{s} s",
        (var m, 0) => $"{m} min",
        var (m, s) => $"{m} min {s} s",
    };

    /// <summary>Wed 8 Apr 2026.</summary>
    public string Date(LocalDate date) =>
        $"{wording[$"day.{(int)date.DayOfWeek}"]} {date.Day} {wording[$"month.{date.Month}"]} {date.Year}";

    /// <summary>Wed 8 Apr 2026, 04:10.</summary>
    public string Moment(LocalDateTime moment) => $"{Date(moment.Date)}, {Time(moment.TimeOfDay)}";

    /// <summary>The same to the minute, for moments whose seconds tell no one anything.</summary>
    public string Minute(LocalDateTime moment) => Moment(moment.Date.At(new LocalTime(moment.Hour, moment.Minute)));

    /// <summary>8 Apr.</summary>
    public string Date(AnnualDate date) => $"{date.Day} {wording[$"month.{date.Month}"]}";

    /// <summary>Watering days in words.</summary>
    public string Days(DayRule? days) => days switch
    {
        null => wording["days.none"],
        DaysOfWeek { Days.Count: 7 } or EveryNDays { Days: 1 } => wording["days.every"],
        DaysOfWeek week => string.Join(" ", week.Days.Order().Select(d => wording[$"day.{(int)d}"])),
        OddDays => wording["days.odd"],
        EvenDays => wording["days.even"],
        EveryNDays every => wording.Fill("days.interval", ("n", every.Days), ("date", Date(every.Anchor))),
        _ => throw new NotSupportedException($"Watering days of kind {days.Kind}."),
    };

    /// <summary>A number with so many decimals; a dash where there is none.</summary>
    public static string Number(double value, int decimals) =>
        double.IsNaN(value) ? "–" : value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    private static string Of(double value, int decimals, string unit) => double.IsNaN(value) ? "–" : $"{Number(value, decimals)} {unit}";
}
