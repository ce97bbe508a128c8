using System.Globalization;
using System.Text.RegularExpressions;
using Valvewright.Engine.Readings.Spoken;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks.Seen;

/// <summary>Numbers, stations and lengths in a statement.</summary>
internal sealed partial class SeenStatement
{
    private const int LargestStation = 48;

    /// <summary>The stations named, by number or by the name of their zone.</summary>
    private ListOf<int> Stations()
    {
        List<int> found = [];
        for (int at = 0; at < hear.Tokens.Count; at++)
        {
            if (hear.Names.ZoneAt(hear, at) is { } zone)
            {
                found.Add(zone.Station);
                at = zone.End - 1;
                continue;
            }

            bool word = hear.Is(at, Sense.Station) && hear[at]!.Text.Length > 1;
            bool article = hear.IsText(at, "la", "las", "number", "numero", "#") && (hear.Is(at + 2, Sense.Run)
                || hear.IsText(at + 2, "no", "nunca", "se", "funciona", "prende") || hear.IsText(at, "number", "#", "numero"));
            int next = at + 1;
            while ((word || article) && hear.Number(next) is { Value: >= 1 and <= LargestStation } number && !hear.IsGlued(number.End, ":")
                && !hear.Is(number.End, Sense.Minute))
            {
                found.Add(number.Value);
                next = hear.IsText(number.End, "and", "y") || hear[number.End]?.Text == "," ? number.End + 1 : number.End;
                at = number.End - 1;
                if (next == number.End)
                {
                    break;
                }
            }
        }

        return found.Distinct().Order().ToListOf();
    }

    /// <summary>The stations behind "all but" or "menos"; none where all work.</summary>
    private ListOf<int> Exceptions()
    {
        for (int at = 0; at < hear.Tokens.Count; at++)
        {
            bool except = hear.Is(at, Sense.Except) || (hear.IsText(at, "just", "only") && hear.IsText(at + 1, "not"))
                || hear.IsText(at, "not") && hear.IsText(at + 1, "number", "station");
            if (!except || !SeenWords.All.IsMatch(plain))
            {
                continue;
            }

            int next = at + 1;
            while (hear.IsText(next, "not", "the", "la", "las", "el", "for", "number", "station", "estacion", "zone", "zona"))
            {
                next++;
            }

            return hear.Number(next) is { Value: >= 1 and <= LargestStation } number && !hear.Is(number.End, Sense.Day)
                ? [number.Value] : stations;
        }

        return [];
    }

    private int? Times()
    {
        if (SeenWords.Twice.IsMatch(plain))
        {
            return 2;
        }

        if (SeenWords.Once.IsMatch(plain))
        {
            return 1;
        }

        for (int at = 0; at < hear.Tokens.Count; at++)
        {
            if (hear.IsText(at, "thrice"))
            {
                return 3;
            }

            if (hear.Number(at) is { Value: > 0 and < 25 } number && hear.IsText(number.End, "times", "veces", "x"))
            {
                return number.Value;
            }
        }

        return null;
    }

    /// <summary>Minutes of a length of time that was said with its unit.</summary>
    private int? Length()
    {
        for (int at = 0; at < hear.Tokens.Count; at++)
        {
            if (hear.Lengths(at).FirstOrDefault(l => l.HasUnit) is { Seconds: >= 60 } length)
            {
                return length.Seconds / 60;
            }
        }

        return null;
    }

    /// <summary>"for two weeks", "hace una semana", "4 days": days; null where none were said.</summary>
    private int? Days()
    {
        for (int at = 0; at < hear.Tokens.Count; at++)
        {
            int count = hear.Number(at) is { } number ? number.Value
                : hear.IsText(at, "a", "an", "una", "un", "the", "la", "last", "past", "whole", "toda") ? 1 : 0;
            int unit = hear.Number(at)?.End ?? at + 1;
            int each = hear.IsText(unit, "day", "days", "dia", "dias", "nights", "noches") ? 1 : hear
                .IsText(unit, "week", "weeks", "semana", "semanas") ? 7 : hear.IsText(unit, "month", "months", "mes", "meses") ? 30 : 0;
            bool perDay = each == 1 && !SeenWords.ForSoLong.IsMatch(plain);
            if (count > 0 && each > 0 && !perDay && !(hear.IsText(at, "a", "the", "la", "una", "an") && each == 1))
            {
                return Math.Clamp(count, 1, 400 / each) * each;
            }
        }

        return null;
    }

    /// <summary>"on the 31st and the 1st", "el 31 y el 1".</summary>
    private ListOf<int> Dates() =>
        DatesOfMonth().Matches(plain).Select(
            m => int.Parse(m.Groups[1].Success ? m.Groups[1].ValueSpan : m.Groups[2].ValueSpan, CultureInfo.InvariantCulture))
                .Where(d => d is >= 1 and <= 31).ToListOf();

    private string Strange() => string.Join(", ", hear.Tokens
        .Where(t => t.Kind == TokenKind.Word && !SeenWords.Knows(t.Text) && !Lexicon.Knows(t.Text) && !hear.Names.Known.Contains(t.Text))
        .Select(t => t.Typed).Distinct());

    [GeneratedRegex(@" ([0-9]{1,2}) (?:st|nd|rd|th) | (?:el|dia|the) ([0-9]{1,2}) (?![:.h])")]
    private static partial Regex DatesOfMonth();
}
