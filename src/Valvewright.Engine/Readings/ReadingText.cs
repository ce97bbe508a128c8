using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Readings;

/// <summary>
/// The quick form of a reading: typed while somebody dictates. Order is free, times may be 12- or 24-hour, days may be letters or
/// words, English and Spanish may mix, and anything may be missing.
/// </summary>
/// <remarks>
/// <code>
/// clock Tue 3:12 pm; 80 percent
/// A: starts 5:00 am 6:30 am; days MWF; stations 1=10 2=12 3=8
/// B: every 3 days, 2 left; start 22:00; st4 1h20
/// C: none
/// </code>
/// docs/readings.md has the whole form. Nothing typed makes it fail; what could mean two things, or nothing, is a <see cref="Doubt"/>.
/// </remarks>
public static class ReadingText
{
    /// <summary>A text longer than this is no dictated reading; what follows is left out with a doubt.</summary>
    public const int LongestText = 20_000;

    /// <summary>Reads a text.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="profile">The controller's profile if known: sharpens what is doubtful.</param>
    /// <param name="clock">How that display shows times, if known.</param>
    public static ReadText Parse(string text, Profile? profile = null, ClockStyle? clock = null)
    {
        ArgumentNullException.ThrowIfNull(text);
        string kept = text.Length > LongestText ? text[..LongestText] : text;
        ReadingParser parser = new(Word.Cut(kept.Replace("por ciento", "porciento ", StringComparison.OrdinalIgnoreCase)), profile, clock);
        if (kept.Length < text.Length)
        {
            parser.DoubtWholeText($"Only the first {LongestText} characters were read");
        }

        return parser.Parse();
    }
}
