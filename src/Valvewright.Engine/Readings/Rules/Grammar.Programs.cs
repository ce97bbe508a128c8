using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings.Spoken;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Readings.Rules;

/// <summary>Which program is spoken of.</summary>
internal sealed partial class Grammar
{
    private IEnumerable<Step> Programs(int at, Spot spot)
    {
        // "nothing in program B"
        int nothing = hear.Is(at, Sense.None) && hear.IsText(at, "nothing", "nada", "none") ? at + 1 : at;
        bool empty = nothing > at && hear.Is(nothing, Sense.Of);
        int name = empty ? nothing + 1 : at;
        bool introduced = empty;
        while (name - at < 5 && hear.IsText(name, "the", "el", "la", "on", "in", "for", "of", "en", "del", "para", "de", "that", "this",
            "eso", "es", "todo", "everything") && !hear.IsLetter(name) && !(hear.Is(name + 1, Sense.At)))
        {
            name++;
            introduced = true;
        }

        bool says = hear.Is(name, Sense.Program);
        int letterAt = says ? name + 1 : name;
        letterAt = says && hear.IsText(letterAt, "the", "letter", "called", ":", "es", "is", "la", "el") ? letterAt + 1 : letterAt;
        if (Letter(letterAt, says, introduced) is not { } letter)
        {
            yield break;
        }

        List<(string Letters, int End)> named = [($"{letter.Letter}", letterAt + 1)];
        while (hear.IsText(named[^1].End, "and", "y", "&", "e"))
        {
            int next = named[^1].End + 1;
            while (hear.IsText(next, "program", "programa", "el", "the", "in", "en", "on"))
            {
                next++;
            }

            if (Letter(next, says, true) is not { Asks: null } more || !hear.IsLetter(next)
                || named[^1].Letters.Contains(more.Letter, StringComparison.Ordinal))
            {
                break;
            }

            named.Add((named[^1].Letters + more.Letter, next + 1));
        }

        Question[] asks = letter.Asks is null ? [] : [letter.Asks];
        foreach ((string letters, int last) in named)
        {
            bool marked = hear.IsText(last, ":", ")") || hear[last] is { Text: "." };
            int end = hear.IsText(last, ":", ")") ? last + 1 : last;
            double cost = letter.Cost + PerStep;
            OpensProgram opens = new(letters, introduced && !marked);
            yield return new Step(at, end, cost, Topic.None, empty ? [opens, .. AllNone] : [opens], asks);

            // "in program A and B is blank": only B is.
            bool together = letters.Length == 1 || hear.IsText(end, "are", "estan", "both");
            if (!empty && Emptiness(end) is { } blank)
            {
                yield return new Step(at, blank, cost + (together ? 0 : 0.8), Topic.None, [opens, .. AllNone], asks);
            }
        }
    }

    private static readonly Said[] AllNone = [new SaysNone(Topic.Starts), new SaysNone(Topic.Runs), new SaysNone(Topic.Days)];

    /// <summary>"is empty", "none", "off", "isn't used", "no hay nada", after a program's name; where it ends.</summary>
    private int? Emptiness(int at)
    {
        int word = at;
        while (word - at < 5 && hear.IsText(word, "is", "has", "esta", "tiene", "hay", "-", "todo", "all", "en", "completely", "set", "to"))
        {
            word++;
        }

        if (hear.Is(word, Sense.Not))
        {
            int used = word + 1;
            while (used - word < 3 && hear.IsText(used, "is", "se", "being", "hay", "tiene", "esta", "lo"))
            {
                used++;
            }

            if (hear.Is(used, Sense.Used) || hear.IsText(used, "nada"))
            {
                return used + 1;
            }
        }

        if (!(hear.Is(word, Sense.None) || hear.Is(word, Sense.Off)) || hear.IsText(word, "sin", "no", "zero", "cero")
            && !hear.IsEnd(word + 1))
        {
            return null;
        }

        int end = word + 1;
        end = hear.IsText(end, "in") && hear.IsText(end + 1, "it") ? end + 2 : end;
        return hear.IsEnd(end) || hear.Is(end, Sense.And) || hear.IsLetter(end) || hear.Is(end, Sense.Program) ? end : null;
    }

    /// <summary>The program that a token names: a letter, a number after "program", or a word that sounds like a letter.</summary>
    private (char Letter, double Cost, Question? Asks)? Letter(int at, bool afterProgram, bool introduced)
    {
        if (hear[at] is not { } token)
        {
            return null;
        }

        bool possessive = token.Text.Length == 3 && token.Text.EndsWith("'s", StringComparison.Ordinal);
        if (token.Kind == TokenKind.Word && (token.Text.Length == 1 || possessive) && token.Text[0] is >= 'a' and <= 'h')
        {
            char letter = char.ToUpperInvariant(token.Text[0]);
            bool marked = hear.IsText(at + 1, ":", ")") || possessive;
            bool capital = char.IsUpper(token.Typed[0]);
            bool begins = hear.IsBeginning(at);
            if (token.Glued && at > 0 && hear[at - 1]!.Kind == TokenKind.Number)
            {
                return null;
            }

            double cost = afterProgram || marked ? 0 : capital ? (begins || introduced ? 0.1 : 0.3) + (
                letter == 'A' && hear.IsText(at + 1, "las", "la", "quarter", "half", "station", "week") ? 0.4 : 0)
                : begins && at == 0 | hear[at - 1]?.Kind == TokenKind.Break ? letter is 'A' or 'E' ? 0.7 : 0.3
                : letter is 'A' or 'E' ? 1.8 : introduced ? 0.4 : letter is 'D' or 'H' ? 1.5 : 0.7;
            bool fits = hear.Profile is not { } profile || letter < Profile.LetterOf(profile.Programs);
            return (letter, cost + (fits ? 0 : 0.8), fits ? null : new Question($"program {letter}", "", hear.Profile!.Programs == 1 ? (
                Sentence)"This controller has only 1 program" : (Sentence)$"This controller has only {hear.Profile.Programs} programs"));
        }

        if (afterProgram && hear.Number(at) is { Value: >= 1 and <= 8 } number && !hear.Is(number.End, Sense.Minute))
        {
            char taken = Profile.LetterOf(number.Value - 1);
            return (taken, 0.3, new Question($"program {taken}", "", "Programs carry letters here; the number was counted from A"));
        }

        char? sound = token.Text switch
            { "be" or "bee" or "ve" or "uve" => 'B', "see" or "sea" or "ce" => 'C', "dee" => 'D', "hey" or "ay" => 'A', _ => null };
        bool followed = hear.Number(at + 1) is not null || hear.Is(at + 1, Sense.Start) || hear.Is(at + 1, Sense.Every);
        return sound is { } heard && (afterProgram || (hear.IsBeginning(at) && followed))
            ? (heard, 0.9, new Question($"program {heard}", "", "It may only sound like the letter"))
            : null;
    }
}
