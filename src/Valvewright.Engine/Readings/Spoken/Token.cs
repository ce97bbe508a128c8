using System.Text.RegularExpressions;

namespace Valvewright.Engine.Readings.Spoken;

/// <summary>What a token is.</summary>
internal enum TokenKind
{
    /// <summary>Letters.</summary>
    Word,

    /// <summary>Digits.</summary>
    Number,

    /// <summary>A sign that can mean something: colon, equals, hyphen, slash, number sign, percent.</summary>
    Sign,

    /// <summary>A comma, or a full stop, which may only end an abbreviation.</summary>
    Pause,

    /// <summary>A line end, a semicolon or an upright stroke.</summary>
    Break,
}

/// <summary>The smallest part of what was said, and where it stands.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Text">Lower case, accents off.</param>
/// <param name="Typed">As typed.</param>
/// <param name="Line">From 1.</param>
/// <param name="Column">From 1.</param>
/// <param name="At">Place in the whole text.</param>
/// <param name="Glued">Whether no blank stands before it.</param>
internal sealed partial record Token(TokenKind Kind, string Text, string Typed, int Line, int Column, int At, bool Glued)
{
    private const int MostDigits = 6;
    private readonly IReadOnlyList<Sense> senses = Lexicon.SensesOf(Text);

    /// <summary>The known word that an unknown one was taken for; null where the word is known, or nothing is near.</summary>
    public string? Corrected { get; private init; }

    /// <summary>The number that the digits say; -1 for what is none.</summary>
    public int Number =>
        Kind == TokenKind.Number && Text.Length <= MostDigits ? int.Parse(Text, System.Globalization.CultureInfo.InvariantCulture) : -1;

    /// <summary>Whether it says nothing by itself.</summary>
    public bool IsPause => Kind is TokenKind.Pause or TokenKind.Break;

    /// <summary>Whether a word of the vocabulary, or one taken for it, has the sense.</summary>
    public bool Is(Sense sense) => senses.Contains(sense) || (Corrected is not null && Lexicon.SensesOf(Corrected).Contains(sense));

    /// <summary>The word as known: what it was taken for, or itself.</summary>
    public string Known => Corrected ?? Text;

    /// <summary>Cuts a text.</summary>
    /// <param name="text">The text.</param>
    /// <param name="names">Words of the site that are no misspelling of others: names of controllers and zones, plain.</param>
    public static List<Token> Cut(string text, IReadOnlySet<string> names)
    {
        string plain = Halves().Replace(Plain(text), m => m.Value[0] + "m" + new string(' ', m.Length - 2));
        List<Token> tokens = [];
        int line = 1, lineStart = 0, last = 0;
        foreach (Match match in Pieces().Matches(plain))
        {
            line += plain.AsSpan(last, match.Index - last).Count('\n');
            lineStart = match.Index == 0 ? 0 : plain.LastIndexOf('\n', match.Index - 1) + 1;
            TokenKind kind = KindOf(match.Value, plain, match.Index);
            string typed = text.Substring(match.Index, match.Length);
            bool glued = match.Index > 0 && !char.IsWhiteSpace(plain[match.Index - 1]);
            Token token = new(kind, match.Value, typed, line, match.Index - lineStart + 1, match.Index, glued);
            tokens.Add(kind == TokenKind.Word && token.senses.Count == 0 && !names.Contains(token.Text)
                ? token with { Corrected = Lexicon.NearestTo(token.Text) } : token);
            last = match.Index;
        }

        return tokens;
    }

    /// <summary>Lower case, accents off, typographic signs to plain ones; no letter moves.</summary>
    public static string Plain(string text) => string.Concat(text.Select(c => char.ToLowerInvariant(c) switch
    {
        'á' or 'à' => 'a',
        'é' or 'è' => 'e',
        'í' => 'i',
        'ó' => 'o',
        'ú' or 'ü' => 'u',
        'ñ' => 'n',
        '–' or '—' or '−' => '-',
        '’' or '′' or '‘' => '\'',
        '\u00A0' or '\r' => ' ',
        var lower => lower,
    }));

    private static TokenKind KindOf(string piece, string text, int at) => piece[0] switch
    {
        '\n' or ';' or '|' => TokenKind.Break,
        ',' or '!' or '¿' or '¡' or '•' => TokenKind.Pause,
        '.' => at > 0 && char.IsAsciiDigit(text[at - 1]) && at + 1 < text.Length && char.IsAsciiDigit(text[at + 1]) ? TokenKind.Sign
            : TokenKind.Pause,
        >= '0' and <= '9' => TokenKind.Number,
        _ => char.IsLetter(piece[0]) ? TokenKind.Word : TokenKind.Sign,
    };

    /// <summary>"a.m.", "p. m."; not "A. M", where the first stands for a program.</summary>
    [GeneratedRegex(@"(?<=[0-9] ?)([ap])\. ?m\b\.?|(?<![a-z])([ap])(?:\. ?m\.|\.m\b)")]
    private static partial Regex Halves();

    [GeneratedRegex(@"\p{L}+(?:'\p{L}+)*|[0-9]+|\S|\n")]
    private static partial Regex Pieces();
}
