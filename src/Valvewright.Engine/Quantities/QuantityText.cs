using System.Globalization;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Quantities;

/// <summary>What came of reading a quantity.</summary>
/// <param name="Value">The value in the unit that the engine keeps the dimension in; NaN where it could not be read.</param>
/// <param name="Unit">The unit it was written in, or the one taken because none was written.</param>
/// <param name="Problem">What is wrong with the text, null where nothing is.</param>
public sealed record QuantityReading(double Value, Unit Unit, Sentence? Problem)
{
    /// <summary>Whether it was read.</summary>
    public bool IsRead => Problem is null;
}

/// <summary>Reads quantities as people write them: <c>3/4 in</c>, <c>40 psi</c>, <c>12 l/min</c>, <c>1,200 sq ft</c>, <c>1 1/2
/// in</c>.</summary>
/// <remarks>
/// A comma before exactly three digits separates thousands (<c>1,200</c>), any other single comma decimals (<c>1,5</c>, <c>0,125</c>);
/// where both occur, the last one is the decimal. Words such as NaN and numbers beyond the range of a double are refused.
/// </remarks>
public static class QuantityText
{
    /// <summary>Reads the text as a quantity of the dimension.</summary>
    /// <param name="text">A number, and a unit unless the usual one is meant.</param>
    /// <param name="dimension">What it must measure.</param>
    /// <param name="usual">The unit of a plain number.</param>
    public static QuantityReading Read(string text, Dimension dimension, Unit usual)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(usual);
        string trimmed = text.Trim().Replace('\u00a0', ' ').Replace('\u2212', '-');
        int end = EndOfNumber(trimmed);
        string number = trimmed[..end].Trim();
        string word = trimmed[end..].Trim();
        double? value = Number(number);
        if (value is null)
        {
            return Fail(usual, number.Contains(',', StringComparison.Ordinal)
                ? "the commas make no sense: write 1,200 or 1200 for thousands, 1.5 or 1,5 for decimals"
                : "it does not begin with a number");
        }

        if (!double.IsFinite(value.Value)) return Fail(usual, "the number is too large");
        if (word.Length == 0) return new QuantityReading(value.Value * usual.Factor, usual, null);
        Unit? unit = Units.Named(word);
        if (unit is null) return Fail(usual, $"'{word}' is not a unit known here");
        return unit.Dimension == dimension
            ? new QuantityReading(value.Value * unit.Factor, unit, null)
            : Fail(usual, $"'{word}' measures {Name(unit.Dimension)}, not {Name(dimension)}");
    }

    /// <summary>What the dimension is called in a sentence.</summary>
    public static Sentence Name(Dimension dimension) => dimension switch
    {
        Dimension.Rate => "depth of water in time",
        Dimension.Share => "a share",
        Dimension.Duration => "time",
        _ => dimension.ToString().ToLowerInvariant(),
    };

    private static QuantityReading Fail(Unit usual, Sentence problem) => new(double.NaN, usual, problem);

    private static int EndOfNumber(string text)
    {
        int end = 0;
        while (end < text.Length
            && (char.IsAsciiDigit(text[end]) || "+-.,/ ".Contains(text[end], StringComparison.Ordinal) || IsExponent(text, end)))
        {
            end++;
        }

        return end;
    }

    private static bool IsExponent(string text, int at) =>
        text[at] is 'e' or 'E' && at > 0 && char.IsAsciiDigit(text[at - 1]) && at + 1 < text.Length
        && (char.IsAsciiDigit(text[at + 1]) || (text[at + 1] is '-' or '+' && at + 2 < text.Length && char.IsAsciiDigit(text[at + 2])));

    private static double? Number(string text)
    {
        int slash = text.IndexOf('/', StringComparison.Ordinal);
        if (slash < 0) return Plain(text);
        string before = text[..slash].Trim();
        int gap = before.LastIndexOfAny([' ', '-']);
        double? whole = gap > 0 ? Plain(before[..gap].Trim()) : 0;
        double? top = Plain(gap > 0 ? before[(gap + 1)..] : before);
        double? bottom = Plain(text[(slash + 1)..].Trim());
        return whole is null || top is null || bottom is null or 0 || (gap > 0 && whole < 0) ? null : whole + (top / bottom);
    }

    private static double? Plain(string text)
    {
        if (text.Contains(',', StringComparison.Ordinal))
        {
            if (Points(text) is not { } pointed) return null;
            text = pointed;
        }

        const NumberStyles Style = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;
        return double.TryParse(text, Style, CultureInfo.InvariantCulture, out double value) ? value : null;
    }

    /// <summary>A number with commas as one with a decimal point; null where its commas make no sense.</summary>
    private static string? Points(string text)
    {
        (int comma, int point) = (text.LastIndexOf(','), text.LastIndexOf('.'));
        if (comma > point && point >= 0)
        {
            // 1.234,5: the points separate thousands.
            return text.IndexOf(',', StringComparison.Ordinal) == comma && AreThousands(text[..comma], '.')
                ? text.Replace(".", "", StringComparison.Ordinal).Replace(',', '.')
                : null;
        }

        string whole = point < 0 ? text : text[..text.IndexOf('.', StringComparison.Ordinal)];
        if (AreThousands(whole, ',')) return text.Replace(",", "", StringComparison.Ordinal);
        return point < 0 && text.IndexOf(',', StringComparison.Ordinal) == comma ? text.Replace(',', '.') : null;
    }

    /// <summary>Whether groups of three digits follow one of one to three that is not zero.</summary>
    private static bool AreThousands(string text, char sign)
    {
        string[] groups = text.TrimStart('+', '-').Split(sign);
        return groups[0].Length is > 0 and <= 3 && groups[0] != "0" && groups[1..].All(group => group.Length == 3);
    }
}
