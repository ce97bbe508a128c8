using Valvewright.Engine.Values;

namespace Valvewright.Engine.Quantities;

/// <summary>The units that a person may write, each with its exact factor.</summary>
/// <remarks>
/// Factors: NIST Special Publication 811 (2008), appendix B. Exact by definition are the inch (25.4 mm), the US gallon
/// (231 cubic inches), the pound-force (4.448 221 615 260 5 N), the bar (100 kPa); the rest follows from them.
/// </remarks>
public static class Units
{
    private const double InchM = UsUnits.MmPerInch / 1000;
    private const double FootM = UsUnits.MPerFoot;
    private const double GallonL = UsUnits.LitresPerGallon;
    private const double PoundForceN = 4.4482216152605;

    /// <summary>Speed, m/s.</summary>
    public static readonly Unit MetrePerSecond = new("m/s", Dimension.Speed, 1, ["m/s"]);

    /// <summary>Speed, miles in an hour.</summary>
    public static readonly Unit MilePerHour = new("mph", Dimension.Speed, 1609.344 / 3600, ["mph", "mi/h"]);

    /// <summary>Metres.</summary>
    public static readonly Unit Metre = new("m", Dimension.Length, 1, ["m", "metre", "metres", "meter", "meters"]);

    /// <summary>Millimetres.</summary>
    public static readonly Unit Millimetre =
        new("mm", Dimension.Length, 0.001, ["mm", "millimetre", "millimetres", "millimeter", "millimeters"]);

    /// <summary>Centimetres.</summary>
    public static readonly Unit Centimetre =
        new("cm", Dimension.Length, 0.01, ["cm", "centimetre", "centimetres", "centimeter", "centimeters"]);

    /// <summary>Inches.</summary>
    public static readonly Unit Inch = new("in", Dimension.Length, InchM, ["in", "inch", "inches", "\"", "″"]);

    /// <summary>Feet.</summary>
    public static readonly Unit Foot = new("ft", Dimension.Length, FootM, ["ft", "foot", "feet", "'", "′"]);

    /// <summary>Square metres.</summary>
    public static readonly Unit SquareMetre =
        new("m2", Dimension.Area, 1, ["m2", "m²", "sq m", "sqm", "square metre", "square metres", "square meter", "square meters"]);

    /// <summary>Square feet.</summary>
    public static readonly Unit SquareFoot =
        new("sq ft", Dimension.Area, FootM * FootM, ["sq ft", "sqft", "ft2", "ft²", "square foot", "square feet"]);

    /// <summary>Square centimetres.</summary>
    public static readonly Unit SquareCentimetre = new("cm2", Dimension.Area, 0.0001, ["cm2", "cm²", "sq cm"]);

    /// <summary>Square inches.</summary>
    public static readonly Unit SquareInch =
        new("sq in", Dimension.Area, InchM * InchM, ["sq in", "in2", "in²", "square inch", "square inches"]);

    /// <summary>Millilitres.</summary>
    public static readonly Unit Millilitre =
        new("mL", Dimension.Volume, 0.001, ["ml", "millilitre", "millilitres", "milliliter", "milliliters", "cc"]);

    /// <summary>Litres per minute.</summary>
    public static readonly Unit LitrePerMinute =
        new("L/min", Dimension.Flow, 1, ["l/min", "lpm", "litres per minute", "liters per minute"]);

    /// <summary>Litres per hour.</summary>
    public static readonly Unit LitrePerHour =
        new("L/h", Dimension.Flow, 1.0 / 60, ["l/h", "lph", "l/hr", "litres per hour", "liters per hour"]);

    /// <summary>US gallons per minute.</summary>
    public static readonly Unit GallonPerMinute = new("gpm", Dimension.Flow, GallonL, ["gpm", "gal/min", "gallons per minute"]);

    /// <summary>US gallons per hour.</summary>
    public static readonly Unit GallonPerHour = new("gph", Dimension.Flow, GallonL / 60, ["gph", "gal/h", "gal/hr", "gallons per hour"]);

    /// <summary>Kilopascals.</summary>
    public static readonly Unit Kilopascal = new("kPa", Dimension.Pressure, 1, ["kpa", "kilopascal", "kilopascals"]);

    /// <summary>Pounds-force per square inch.</summary>
    public static readonly Unit Psi = new("psi", Dimension.Pressure, PoundForceN / (InchM * InchM) / 1000, ["psi", "lb/in2", "lbf/in2"]);

    /// <summary>Millimetres per hour.</summary>
    public static readonly Unit MillimetrePerHour = new("mm/h", Dimension.Rate, 1, ["mm/h", "mm/hr", "mm per hour"]);

    /// <summary>Inches per hour.</summary>
    public static readonly Unit InchPerHour =
        new("in/h", Dimension.Rate, UsUnits.MmPerInch, ["in/h", "in/hr", "iph", "inches per hour", "inch per hour"]);

    /// <summary>Minutes.</summary>
    public static readonly Unit Minute = new("min", Dimension.Duration, 60, ["min", "mins", "minute", "minutes"]);

    /// <summary>Seconds.</summary>
    public static readonly Unit Second = new("s", Dimension.Duration, 1, ["s", "sec", "secs", "second", "seconds"]);

    /// <summary>Percent.</summary>
    public static readonly Unit Percent = new("%", Dimension.Share, 1, ["%", "percent", "pct"]);

    /// <summary>All of them.</summary>
    public static ListOf<Unit> All { get; } =
    [
        Metre, Millimetre, Centimetre, Inch, Foot,
        new("km", Dimension.Length, 1000, ["km", "kilometre", "kilometres", "kilometer", "kilometers"]),
        new("yd", Dimension.Length, 3 * FootM, ["yd", "yard", "yards"]),
        SquareMetre, SquareFoot, SquareCentimetre, SquareInch,
        new("ha", Dimension.Area, 10_000, ["ha", "hectare", "hectares"]),
        new("ac", Dimension.Area, 43_560 * FootM * FootM, ["ac", "acre", "acres"]),
        new("sq yd", Dimension.Area, 9 * FootM * FootM, ["sq yd", "yd2", "yd²", "square yard", "square yards"]),
        Millilitre,
        new("L", Dimension.Volume, 1, ["l", "litre", "litres", "liter", "liters"]),
        new("gal", Dimension.Volume, GallonL, ["gal", "gallon", "gallons"]),
        new("fl oz", Dimension.Volume, GallonL / 128, ["fl oz", "fluid ounce", "fluid ounces"]),
        new("m3", Dimension.Volume, 1000, ["m3", "m³", "cubic metre", "cubic metres"]),
        LitrePerMinute, LitrePerHour, GallonPerMinute, GallonPerHour,
        new("L/s", Dimension.Flow, 60, ["l/s", "lps", "litres per second", "liters per second"]),
        new("m3/h", Dimension.Flow, 1000.0 / 60, ["m3/h", "m³/h", "m3/hr", "cubic metres per hour"]),
        Kilopascal, Psi,
        new("bar", Dimension.Pressure, 100, ["bar", "bars"]),
        new("MPa", Dimension.Pressure, 1000, ["mpa", "megapascal", "megapascals"]),
        MillimetrePerHour, InchPerHour,
        new("cm/h", Dimension.Rate, 10, ["cm/h", "cm/hr"]),
        MetrePerSecond,
        new("km/h", Dimension.Speed, 1 / 3.6, ["km/h", "kph"]),
        MilePerHour,
        Minute, Second,
        new("h", Dimension.Duration, 3600, ["h", "hr", "hrs", "hour", "hours"]),
        new("d", Dimension.Duration, 86_400, ["d", "day", "days"]),
        Percent,
    ];

    /// <summary>The unit of that spelling (case and full stops do not matter), null where there is none.</summary>
    public static Unit? Named(string spelling)
    {
        ArgumentNullException.ThrowIfNull(spelling);
        string plain = string.Join(
            ' ', spelling.Replace(".", "", StringComparison.Ordinal).ToLowerInvariant().Split(' ', StringSplitOptions.RemoveEmptyEntries));
        return All.FirstOrDefault(unit => unit.Spellings.Contains(plain));
    }

    /// <summary>The units of a dimension.</summary>
    public static IEnumerable<Unit> Of(Dimension dimension) => All.Where(unit => unit.Dimension == dimension);
}
