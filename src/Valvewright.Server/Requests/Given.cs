using System.Globalization;
using NodaTime.Text;
using Valvewright.Server.Problems;
using Valvewright.Records;

namespace Valvewright.Server.Requests;

/// <summary>Reads ids, versions, dates and short texts out of addresses and headers.</summary>
internal static class Given
{
    private const int LongestName = 100;

    /// <summary>An id in the address.</summary>
    public static Guid Id(string text, string what) =>
        Ids.TryRead(text, out Guid id) ? id : throw Refusal
            .Wrong($"{what}", $"{text}", "a UUID of version 7, as 018f3b1c-8a00-7000-8000-000000000000", "Not an id of a " + what + ".");

    /// <summary>The version that a change rests on; null where none is named.</summary>
    public static long? Version(string? ifMatch)
    {
        if (ifMatch is null)
        {
            return null;
        }

        string text = ifMatch.Trim();
        return text.Length is > 2 and < 22 && text[0] == '"' && text[^1] == '"'
            && long.TryParse(text.AsSpan(1, text.Length - 2), NumberStyles.None, CultureInfo.InvariantCulture,
                out long version) && version > 0
            ? version
            : throw Refusal.Wrong($"{"If-Match"}", $"{ifMatch}", "the ETag of the version that was changed, as \"3\"", "Not a version.");
    }

    /// <summary>The version that a removal rests on.</summary>
    public static long NeededVersion(string? ifMatch) => Version(ifMatch)
        ?? throw new Refusal(StatusCodes.Status428PreconditionRequired, "version-needed", "Say in If-Match which version is meant.");

    /// <summary>The ETag of a version.</summary>
    public static string Tag(long version) => string.Create(CultureInfo.InvariantCulture, $"\"{version}\"");

    /// <summary>Who says to be doing this.</summary>
    public static Stamp Stamp(string? by, IClock clock) => new(Line(by ?? "", "by", LongestName), clock.GetCurrentInstant());

    /// <summary>A date; null where none is given.</summary>
    public static LocalDate? Date(string? text, string name)
    {
        if (text is null)
        {
            return null;
        }

        ParseResult<LocalDate> date = LocalDatePattern.Iso.Parse(text);
        return date.Success && date.Value.Year is > 1900 and < 2200 ? date.Value
            : throw Refusal.Wrong($"{name}", $"{text}", "a date as 2026-04-01, of the years 1901 to 2199", "Not a date.");
    }

    /// <summary>One of some words; null where none is given.</summary>
    public static string? Word(string? text, string name, params string[] words) =>
        text is null || words.Contains(text) ? text : throw Refusal.Wrong($"{name}", $"{text}", Shown.OneOf(words), "Unknown choice.");

    /// <summary>Text of one line.</summary>
    public static string Line(string text, string name, int longest) =>
        text.Length <= longest && !text.Any(c => char.IsControl(c) || Files.Problems.Misleading.Is(c))
            ? Whole(text, name)
            : throw Refusal.Wrong($"{name}", $"{text}", $"at most {longest} characters on one line", "This text cannot be kept.");

    /// <summary>Text of several lines.</summary>
    public static string Lines(string text, string name, int longest) =>
        text.Length <= longest && !text.Any(c => Files.Problems.Misleading.Is(c) || (char.IsControl(c) && c is not ('\n' or '\r' or '\t')))
            ? Whole(text, name)
            : throw Refusal.Wrong($"{name}", $"{text}", $"at most {longest} characters of text", "This text cannot be kept.");

    /// <summary>A measured amount within what can be.</summary>
    public static double? Amount(double? value, string name, double least, double most) =>
        value is not { } amount || (amount >= least && amount <= most)
            ? value
            : throw Refusal.Wrong($"{name}", $"{amount}", $"from {least} to {most}", "This cannot have been measured.");

    private static string Whole(string text, string name)
    {
        for (int i = 0; i < text.Length; i++)
        {
            if (i + 1 < text.Length && char.IsSurrogatePair(text[i], text[i + 1]))
            {
                i++;
            }
            else if (char.IsSurrogate(text[i]))
            {
                throw Refusal.Wrong($"{name}", $"{text}", "well-formed Unicode", "This text is broken.");
            }
        }

        return text;
    }
}
