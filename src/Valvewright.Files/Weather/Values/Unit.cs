using System.Globalization;
using System.Text;
using Valvewright.Engine.Survey;

namespace Valvewright.Files.Weather.Values;

/// <summary>A unit that a column may be in, and how it becomes the unit a record is kept in: kept = value x Factor + Offset.</summary>
/// <param name="Word">The unit as we write it.</param>
/// <param name="Dimension">What it measures.</param>
/// <param name="Factor">Kept units in one of these.</param>
/// <param name="Offset">Kept value of this unit's zero.</param>
internal sealed record Unit(string Word, Dimension Dimension, double Factor, double Offset = 0)
{
    public static readonly Unit Celsius = new("°C", Dimension.Temperature, 1);
    public static readonly Unit Fahrenheit = new("°F", Dimension.Temperature, 5.0 / 9, -160.0 / 9);
    public static readonly Unit Kelvin = new("K", Dimension.Temperature, 1, -273.15);
    public static readonly Unit TenthCelsius = new("0.1 °C", Dimension.Temperature, 0.1);
    public static readonly Unit Millimetre = new("mm", Dimension.WaterDepth, 1);
    public static readonly Unit TenthMillimetre = new("0.1 mm", Dimension.WaterDepth, 0.1);
    public static readonly Unit Centimetre = new("cm", Dimension.WaterDepth, 10);
    public static readonly Unit Inch = new("in", Dimension.WaterDepth, 25.4);
    public static readonly Unit PerCent = new("%", Dimension.Percent, 1);
    public static readonly Unit Fraction = new("fraction", Dimension.Percent, 100);
    public static readonly Unit Kilopascal = new("kPa", Dimension.Pressure, 1);
    public static readonly Unit Hectopascal = new("hPa", Dimension.Pressure, 0.1);
    public static readonly Unit Megajoule = new("MJ/m²", Dimension.Radiation, 1);
    public static readonly Unit KilowattHour = new("kWh/m²", Dimension.Radiation, 3.6);
    public static readonly Unit WattHour = new("Wh/m²", Dimension.Radiation, 0.0036);
    public static readonly Unit Watt = new("W/m²", Dimension.Radiation, 0.0864);
    public static readonly Unit JoulePerCm2 = new("J/cm²", Dimension.Radiation, 0.01);

    /// <summary>1 cal/cm² a day with the calorie of 4.1868 J (International Table), as the CIMIS exports are converted.</summary>
    public static readonly Unit Langley = new("Ly", Dimension.Radiation, 0.041868);

    public static readonly Unit Hour = new("h", Dimension.Duration, 1);
    public static readonly Unit TenthHour = new("0.1 h", Dimension.Duration, 0.1);
    public static readonly Unit Minute = new("min", Dimension.Duration, 1.0 / 60);
    public static readonly Unit Second = new("s", Dimension.Duration, 1.0 / 3600);
    public static readonly Unit MetrePerSecond = new("m/s", Dimension.Speed, 1);
    public static readonly Unit TenthMetrePerSecond = new("0.1 m/s", Dimension.Speed, 0.1);
    public static readonly Unit KilometrePerHour = new("km/h", Dimension.Speed, 1 / 3.6);
    public static readonly Unit KilometrePerDay = new("km/day", Dimension.Speed, 1000.0 / 86400);
    public static readonly Unit MilePerHour = new("mph", Dimension.Speed, 0.44704);
    public static readonly Unit MilePerDay = new("miles/day", Dimension.Speed, 1609.344 / 86400);
    public static readonly Unit Knot = new("kn", Dimension.Speed, 1852.0 / 3600);
    public static readonly Unit FootPerSecond = new("ft/s", Dimension.Speed, 0.3048);

    /// <summary>The unit that a system uses for temperature, depth or speed; null for what both measure alike.</summary>
    public static Unit? UsualIn(UnitSystem system, Dimension dimension) => (dimension, system) switch
    {
        (Dimension.Temperature, UnitSystem.Metric) => Celsius,
        (Dimension.Temperature, _) => Fahrenheit,
        (Dimension.WaterDepth, UnitSystem.Metric) => Millimetre,
        (Dimension.WaterDepth, _) => Inch,
        (Dimension.Speed, UnitSystem.Metric) => MetrePerSecond,
        (Dimension.Speed, _) => MilePerHour,
        _ => null,
    };

    private static readonly Dictionary<string, Unit> Words = ByWord(
        (Celsius, "c degc celsius degreesc"),
        (Fahrenheit, "f degf fahrenheit degreesf"),
        (Kelvin, "k degk kelvin"),
        (Millimetre, "mm millimetre millimetres millimeter millimeters"),
        (Centimetre, "cm"),
        (Inch, "in inch inches"),
        (PerCent, "% pct percent"),
        (Fraction, "fraction ratio"),
        (Kilopascal, "kpa"),
        (Hectopascal, "hpa mbar mbars mb millibar"),
        (Megajoule, "mjm2 mjsqm"),
        (KilowattHour, "kwhm2 kwhrm2 kwhsqm"),
        (WattHour, "whm2 whrm2"),
        (Watt, "wm2 wsqm"),
        (JoulePerCm2, "jcm2"),
        (Langley, "ly langley langleys calcm2"),
        (Hour, "h hr hrs hour hours"),
        (Minute, "min mins minutes"),
        (Second, "s sec seconds"),
        (MetrePerSecond, "ms mps ms1"),
        (KilometrePerHour, "kmh kmhr kph"),
        (KilometrePerDay, "kmday kmd"),
        (MilePerHour, "mph mileshour"),
        (MilePerDay, "miles milesday"),
        (Knot, "kn kt kts knot knots"),
        (FootPerSecond, "fts fps"));

    /// <summary>The units that a dimension may have, as we write them.</summary>
    public static string ChoicesFor(Dimension dimension) =>
        string.Join(", ", Words.Values.Where(unit => unit.Dimension == dimension).Select(unit => unit.Word).Distinct());

    /// <summary>The unit that a word names: signs, blanks and "per day" do not matter, so MJ/m^2/day, MJ m-2 d-1 and mj_m2 are
    /// one.</summary>
    public static Unit? Named(ReadOnlySpan<char> word)
    {
        string key = Key(word);
        foreach (string dayEnding in new[] { "", "day1", "day", "d1", "d" })
        {
            if (key.EndsWith(dayEnding, StringComparison.Ordinal) && Words.TryGetValue(key[..^dayEnding.Length], out Unit? unit))
            {
                return unit;
            }
        }

        return null;
    }

    /// <summary>The same, with 0.1 before it for tenths: 0.1 °C.</summary>
    public static Unit? WithTenths(string word)
    {
        const string Tenth = "0.1 ";
        return word.StartsWith(Tenth, StringComparison.Ordinal) && Named(word.AsSpan(Tenth.Length)) is { } whole && whole.Offset == 0
            ? new Unit(Tenth + whole.Word, whole.Dimension, whole.Factor / 10)
            : Named(word);
    }

    /// <summary>The value in the unit that records are kept in.</summary>
    public double Kept(double value) => (value * Factor) + Offset;

    private static string Key(ReadOnlySpan<char> word)
    {
        StringBuilder key = new();
        foreach (char c in word)
        {
            if (char.IsAsciiLetterOrDigit(c) || c == '%')
            {
                key.Append(char.ToLower(c, CultureInfo.InvariantCulture));
            }
            else if (c == '²')
            {
                key.Append('2');
            }
        }

        return key.ToString();
    }

    private static Dictionary<string, Unit> ByWord(params (Unit Unit, string Words)[] units)
    {
        Dictionary<string, Unit> byWord = [];
        foreach ((Unit unit, string words) in units)
        {
            foreach (string word in words.Split(' '))
            {
                byWord.Add(word, unit);
            }
        }

        return byWord;
    }
}
