using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Readings;

/// <summary>Day letters: "MWF", "TThS", "M-W-F--", Spanish "LXV".</summary>
/// <param name="Days">The days, Monday first.</param>
/// <param name="Problem">Why they can't be told; empty when they can.</param>
/// <param name="Otherwise">What they could be.</param>
internal sealed record DayLetters(ListOf<IsoDayOfWeek> Days, string Problem, string Otherwise)
{
    private const string English = "mtwtfss";
    private const string Spanish = "lmxjvsd";

    /// <summary>Reads a clump of letters; null where it is none.</summary>
    /// <param name="text">Lower case.</param>
    /// <param name="expected">Whether days were announced, so that a single letter counts too.</param>
    public static DayLetters? Read(string text, bool expected)
    {
        if (text.Length == 7 && text.Any(c => c is '-' or '_' or '.') && Mask(text) is { } mask)
        {
            return mask;
        }

        if (text.Length is 0 or > 10 || (text.Length == 1 && !expected))
        {
            return null;
        }

        bool spanish = text.Any(c => c is 'l' or 'x' or 'j' or 'v' or 'd');
        return InOrder(text, spanish);
    }

    /// <summary>Seven places, a letter where it waters.</summary>
    private static DayLetters? Mask(string text)
    {
        List<IsoDayOfWeek> days = [];
        for (int place = 0; place < 7; place++)
        {
            if (text[place] is '-' or '_' or '.')
            {
                continue;
            }

            if (text[place] != English[place] && text[place] != Spanish[place] && text[place] is not ('x' or 'o' or '*'))
            {
                return null;
            }

            days.Add((IsoDayOfWeek)(place + 1));
        }

        return days.Count == 0 ? null : new DayLetters([.. days], "", "");
    }

    /// <summary>
    /// English T and S each stand for two days, and so does the Spanish M where no X is used for Wednesday. "Th", "Tu", "Sa", "Su" settle
    /// it; so do both in a row ("TWT", "SS") and a letter between its neighbors ("MTW", "LMX"). Otherwise the letters are doubtful.
    /// </summary>
    private static DayLetters? InOrder(string text, bool spanish)
    {
        List<List<IsoDayOfWeek>> readings = [[]];
        for (int i = 0; i < text.Length;)
        {
            (IsoDayOfWeek[] options, int length) = spanish ? SpanishAt(text, i) : OptionsAt(text, i);
            if (options.Length == 0)
            {
                return null;
            }

            // Letters are written in the order of the week, some begin it on Sunday; each option must come after what is before.
            readings = [.. readings.SelectMany(r => options.Where(d => Follows(r, d)).Select(d => (List<IsoDayOfWeek>)[.. r, d]))];
            i += length;
        }

        if (readings.Count == 0)
        {
            return null;
        }

        if (readings.Count == 1)
        {
            return new DayLetters(readings[0].Order().ToListOf(), "", "");
        }

        string choices = string.Join(" or ", readings.Take(4).Select(r => string.Join(" ", r.Select(d => d.ToString()[..3]))));
        return new DayLetters([], "T and S can each mean two days; left out", choices);
    }

    private static bool Follows(List<IsoDayOfWeek> before, IsoDayOfWeek day) =>
        before.Count == 0 || (before[^1] == IsoDayOfWeek.Sunday ? before.Count == 1 && day != IsoDayOfWeek.Sunday : day > before[^1]
            && !before.Contains(day));

    private static (IsoDayOfWeek[] Options, int Length) SpanishAt(string text, int at)
    {
        int place = Spanish.IndexOf(text[at], StringComparison.Ordinal);
        IsoDayOfWeek[] options = place < 0 ? [] : text[at] == 'm' && !text.Contains('x', StringComparison.Ordinal)
            ? [IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday] : [(IsoDayOfWeek)(place + 1)];
        return (options, 1);
    }

    private static (IsoDayOfWeek[] Options, int Length) OptionsAt(string text, int at)
    {
        string two = at + 1 < text.Length ? text.Substring(at, 2) : "";
        return (two, text[at]) switch
        {
            ("th", _) => ([IsoDayOfWeek.Thursday], 2),
            ("tu", _) => ([IsoDayOfWeek.Tuesday], 2),
            ("sa", _) => ([IsoDayOfWeek.Saturday], 2),
            ("su", _) => ([IsoDayOfWeek.Sunday], 2),
            (_, 'm') => ([IsoDayOfWeek.Monday], 1),
            (_, 't') => ([IsoDayOfWeek.Tuesday, IsoDayOfWeek.Thursday], 1),
            (_, 'w') => ([IsoDayOfWeek.Wednesday], 1),
            (_, 'f') => ([IsoDayOfWeek.Friday], 1),
            (_, 's') => ([IsoDayOfWeek.Saturday, IsoDayOfWeek.Sunday], 1),
            _ => ([], 1),
        };
    }
}
