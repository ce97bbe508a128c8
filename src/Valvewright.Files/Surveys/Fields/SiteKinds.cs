using System.Globalization;
using NodaTime.TimeZones;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys.Fields;

/// <summary>Degrees of latitude or longitude, with a sign or a letter.</summary>
/// <param name="Letters">The letters of the two directions, the positive one first.</param>
public sealed record DegreesKind(string Letters) : ValueKind<double>
{
    private bool IsLatitude => Letters[0] == 'N';

    internal override Sentence Expected(UnitSystem units) => IsLatitude ? "degrees north from -90 to 90" : "degrees east from -180 to 180";

    private protected override bool TryRead(TextNode text, string key, Sentence expected, ReadingContext context, out double value)
    {
        string plain = text.Text.Trim().TrimEnd('°').ToUpperInvariant();
        int sign = 1;
        if (plain.Length > 1 && Letters.Contains(plain[^1], StringComparison.Ordinal))
        {
            sign = plain[^1] == Letters[1] ? -1 : 1;
            plain = plain[..^1].Trim().TrimEnd('°').Trim();
        }

        bool isRead = double.TryParse(plain, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && Math.Abs(value) <= 180;
        value *= sign;
        if (!isRead) context.Findings.Refuse(text, expected, IsLatitude ? "This is not a latitude" : "This is not a longitude");
        return isRead;
    }
}

/// <summary>The name of a time zone.</summary>
public sealed record TimeZoneKind : ValueKind<string>
{
    internal override Sentence Expected(UnitSystem units) => "an IANA time zone such as America/Denver";

    private protected override bool TryRead(TextNode text, string key, Sentence expected, ReadingContext context, out string value)
    {
        value = text.Text;
        IDictionary<string, string> known = TzdbDateTimeZoneSource.Default.CanonicalIdMap;
        if (known.ContainsKey(value)) return true;
        string? nearest = NearestWord.To(value, known.Keys.Order(StringComparer.Ordinal));
        context.Findings.Refuse(text, expected, "Unknown time zone", nearest);
        return false;
    }
}

/// <summary>A span of hours of the day.</summary>
public sealed record HoursKind : ValueKind<TimeWindow>
{
    internal override Sentence Expected(UnitSystem units) => HoursText.Expected;

    private protected override bool TryRead(TextNode text, string key, Sentence expected, ReadingContext context, out TimeWindow value)
    {
        value = HoursText.Read(text, context.Findings)!;
        return value is not null;
    }
}

/// <summary>Water that a depth of soil holds: mm/m, or in/ft at a US customary site; a share of volume may be written in percent.</summary>
public sealed record SoilWaterKind : ValueKind<double>
{
    private const double Least = 30;
    private const double Largest = 350;
    private const double InPerFt = 1000.0 / 12;

    internal override Sentence Expected(UnitSystem units) => units == UnitSystem.UsCustomary ? "0.4 to 4 in/ft" : "30 to 350 mm/m";

    private protected override bool TryRead(TextNode text, string key, Sentence expected, ReadingContext context, out double value)
    {
        (string Unit, double Factor)[] units = [("mm/m", 1), ("in/ft", InPerFt), ("in/in", 1000), ("%", 10)];
        string plain = text.Text.ToLowerInvariant();
        (string? unit, double factor) = units.FirstOrDefault(u => plain.EndsWith(u.Unit, StringComparison.Ordinal));
        if (unit is null) factor = context.Units == UnitSystem.UsCustomary ? InPerFt : 1;
        QuantityReading number = QuantityText.Read(plain[..^(unit?.Length ?? 0)], Dimension.Share, Units.Percent);
        value = number.IsRead ? number.Value * factor : double.NaN;
        if (value is >= Least and <= Largest) return true;
        context.Findings.Refuse(text, expected, "This is not the water that a soil holds");
        return false;
    }
}
