using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings.Dictation;
using Valvewright.Engine.Readings.Rules;
using Valvewright.Engine.Readings.Spoken;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Readings;

/// <summary>
/// The quick form of a reading: typed while a person dictates. Order is free, times may be 12- or 24-hour, days may be letters or
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
    public const int LongestText = 8_000;

    /// <summary>Reads a text.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="profile">The controller's profile if known: sharpens what is doubtful.</param>
    /// <param name="clock">How that display shows times, if known.</param>
    /// <param name="names">Names of the site that may be spoken.</param>
    public static ReadText Parse(string text, Profile? profile = null, ClockStyle? clock = null, SiteNames? names = null)
    {
        ArgumentNullException.ThrowIfNull(text);
        string kept = text.Length > LongestText ? text[..LongestText] : text;
        kept = SettingsLine.TakeOut(kept, out ReadText? settings);
        List<Token> tokens = Token.Cut(kept, (names ?? SiteNames.None).Known);
        Hearing hearing = new(tokens, profile, clock, names);
        ReadText read = new Account(hearing, Interpretation.Of(new Grammar(hearing), tokens.Count)).Read();
        read = settings is null ? read : SettingsLine.Join(settings, read);
        return kept.Length == Math.Min(text.Length, LongestText) && text.Length <= LongestText
            ? read
            : read with { Doubts = read.Doubts.Prepend(
                new Doubt(1, 1, "", "", "", $"Only the first {LongestText} characters were read", EveryPart(read.Reading))).ToListOf() };
    }

    /// <summary>All that was read.</summary>
    internal static ListOf<DoubtfulPart> EveryPart(Reading reading) =>
    [
        .. reading.Clock is null ? Array.Empty<DoubtfulPart>() : [new DoubtfulPart(ReadPart.Clock, null)],
        .. reading.Percent is null ? Array.Empty<DoubtfulPart>() : [new DoubtfulPart(ReadPart.Percent, null)],
        .. reading.Off is null ? Array.Empty<DoubtfulPart>() : [new DoubtfulPart(ReadPart.OnOrOff, null)],
        .. reading.RainHoldDays is null ? Array.Empty<DoubtfulPart>() : [new DoubtfulPart(ReadPart.RainHold, null)],
        .. reading.Programs.SelectMany(
            p => new[] { ReadPart.StartTimes, ReadPart.RunTimes, ReadPart.WaterDays }.Select(part => new DoubtfulPart(part, p.Letter))),
    ];
}
