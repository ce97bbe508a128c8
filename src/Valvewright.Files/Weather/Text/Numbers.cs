using System.Globalization;

namespace Valvewright.Files.Weather.Text;

/// <summary>Reads numbers as weather files write them: a decimal point, no thousands separator.</summary>
internal static class Numbers
{
    /// <summary>A finite number; "NaN" and "Infinity" are words, not numbers.</summary>
    public static bool TryRead(ReadOnlySpan<char> text, out double value) =>
        double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent,
            CultureInfo.InvariantCulture, out value)
        && double.IsFinite(value);

    /// <summary>Digits behind the decimal point as written.</summary>
    public static int Decimals(ReadOnlySpan<char> text)
    {
        int point = text.IndexOf('.');
        return point < 0 ? 0 : text.Length - point - 1;
    }
}
