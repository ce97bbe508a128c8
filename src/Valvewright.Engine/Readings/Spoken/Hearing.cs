using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Readings.Spoken;

/// <summary>The tokens of a text with what is known of the display they were read off: numbers, times, lengths and days at a
/// place.</summary>
internal sealed partial class Hearing
{
    public Hearing(IReadOnlyList<Token> tokens, Profile? profile, ClockStyle? style, SiteNames? names)
    {
        Tokens = tokens;
        Profile = profile;
        Names = names ?? SiteNames.None;
        bool saysHalf = tokens.Where((t, i) => i > 0 && t.Text is "am" or "pm" or "a" or "p" && tokens[i - 1].Kind == TokenKind.Number
            && (t.Text.Length == 2 || t.Glued)).Any();
        bool showsAfternoon = tokens.Where((t, i) => t.Kind == TokenKind.Number && IsOf24Hours(t) && i + 2 < tokens.Count
            && tokens[i + 1] is { Glued: true, Text: ":" or "." or "h" } && tokens[i + 2].Glued).Any();
        StyleIsKnown = style is not null || saysHalf || showsAfternoon;
        TwelveHours = style == ClockStyle.Hours12 || (style is null && saysHalf);
    }

    public IReadOnlyList<Token> Tokens { get; }

    public Profile? Profile { get; }

    public SiteNames Names { get; }

    /// <summary>Whether the display shows a.m. and p.m.</summary>
    public bool TwelveHours { get; }

    /// <summary>Whether that is known, or only supposed.</summary>
    public bool StyleIsKnown { get; }

    public Token? this[int at] => at >= 0 && at < Tokens.Count ? Tokens[at] : null;

    public bool Is(int at, Sense sense) => at >= 0 && at < Tokens.Count && Tokens[at].Is(sense);

    public bool IsText(int at, params ReadOnlySpan<string> texts) => this[at] is { } token && texts.Contains(token.Known);

    public bool IsGlued(int at, string text) => this[at] is { Glued: true } token && token.Text == text;

    /// <summary>The number at a place.</summary>
    public (int Value, int End)? Number(int at) => Numerals.At(Tokens, at) is { } n ? (n.Value, at + n.Length) : null;

    /// <summary>The ordinal at a place.</summary>
    public (int Value, int End)? Ordinal(int at) => Numerals.OrdinalAt(Tokens, at) is { } n ? (n.Value, at + n.Length) : null;

    /// <summary>Whether a line, a sentence or the text ends here.</summary>
    public bool IsEnd(int at) => this[at] is not { } token || token.IsPause;

    /// <summary>Whether a line, a sentence or the text begins here.</summary>
    public bool IsBeginning(int at) => at == 0 || Tokens[at - 1].IsPause;

    /// <summary>Passes small words and signs that say nothing; a line end is not passed, a comma is.</summary>
    public int SkipSmall(int at)
    {
        while (this[at] is { } token && token.Kind != TokenKind.Break && (token.Kind == TokenKind.Pause || (
            (token.Is(Sense.Filler) || token.Is(Sense.Hedge) || token.Is(Sense.Says)) && !Numerals.Knows(token.Text) && !IsLetter(at))))
        {
            at++;
        }

        return at;
    }

    /// <summary>Whether a capital letter that may name a program stands alone here.</summary>
    public bool IsLetter(int at) => this[at] is { Kind: TokenKind.Word, Typed: { Length: 1 } typed } && typed[0] is >= 'A' and <= 'H'
        && !(typed == "A" && (IsText(at + 1, "quarter")
            || (IsText(at + 1, "las") && Number(at + 2) is { Value: < 25 } hour && !Is(hour.End, Sense.Station))));

    private static bool IsOf24Hours(Token hour) => hour.Number is > 12 and < 24 || (hour.Text.Length == 2 && hour.Text[0] == '0');
}
