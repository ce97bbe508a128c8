namespace Valvewright.Engine.Readings;

/// <summary>One word of a dictated reading and where it stands.</summary>
/// <param name="Text">The word, lower case, without surrounding punctuation.</param>
/// <param name="Typed">As typed.</param>
/// <param name="Line">From 1.</param>
/// <param name="Column">From 1.</param>
/// <param name="BeginsStatement">Whether a line or a semicolon begins with it.</param>
/// <param name="HasColon">Whether a colon followed it, as in "A:".</param>
internal sealed record Word(string Text, string Typed, int Line, int Column, bool BeginsStatement, bool HasColon)
{
    /// <summary>Cuts a text into words. Blanks, commas, semicolons and line ends separate; a colon at a word's end is noted.</summary>
    public static List<Word> Cut(string text)
    {
        List<Word> words = [];
        int line = 1, lineStart = 0, at = 0;
        bool begins = true;
        while (at < text.Length)
        {
            char c = text[at];
            if (c == '\n')
            {
                line++;
                lineStart = at + 1;
                begins = true;
            }
            else if (c is ';' or '|')
            {
                begins = true;
            }
            else if (!IsSeparator(c))
            {
                int from = at;
                while (at < text.Length && !IsSeparator(text[at]) && text[at] is not ('\n' or ';' or '|'))
                {
                    at++;
                }

                string typed = text[from..at];
                string bare = typed.TrimEnd(':', '.', '!', '?').TrimStart('(', '"', '\'').TrimEnd(')', '"');
                if (bare.Length > 0)
                {
                    words.Add(new Word(Plain(bare), typed, line, from - lineStart + 1, begins, typed.EndsWith(':')));
                    begins = false;
                }

                continue;
            }

            at++;
        }

        return words;
    }

    private static bool IsSeparator(char c) => char.IsWhiteSpace(c) && c != '\n' || c is ',' or '\u00A0';

    /// <summary>Lower case, accents off, typographic signs to plain ones.</summary>
    private static string Plain(string text) => string.Concat(text.ToLowerInvariant().Select(c => c switch
    {
        'á' or 'à' => 'a',
        'é' or 'è' => 'e',
        'í' => 'i',
        'ó' => 'o',
        'ú' or 'ü' => 'u',
        'ñ' => 'n',
        '–' or '—' or '−' => '-',
        '’' or '′' => '\'',
        _ => c,
    }));
}
