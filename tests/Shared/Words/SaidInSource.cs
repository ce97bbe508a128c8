using System.Text;
using System.Text.RegularExpressions;

namespace Valvewright.Tests.Words;

/// <summary>
/// What source says to people: the patterns of the texts in it, as <c>Sentence</c> makes them. A text that is a name for programs is none.
/// So a sentence that nobody can reach in a test is found as well.
/// </summary>
internal static partial class SaidInSource
{
    /// <summary>The patterns of all texts in statements that match.</summary>
    /// <param name="folders">Files, and folders with all below them, from the root of the checkout.</param>
    /// <param name="statement">What a statement holds that says something to people; null takes all.</param>
    /// <param name="isName">Whether a text is a name for programs.</param>
    public static IReadOnlyCollection<string> Patterns(IEnumerable<string> folders, Regex? statement, Func<string, bool> isName) =>
        [.. folders.SelectMany(Files).SelectMany(f => Statements().Split(Comments().Replace(File.ReadAllText(f), "")))
            .Where(s => statement is null || statement.IsMatch(s))
            .SelectMany(Texts)
            .Where(t => Place().Replace(t, "").Any(char.IsLetter) && !isName(t))
            .Distinct().Order(StringComparer.Ordinal)];

    private static IEnumerable<string> Files(string path)
    {
        string whole = Path.Combine(Checkout.Root, path);
        return File.Exists(whole) ? [whole] : Directory.GetFiles(whole, "*.cs", SearchOption.AllDirectories)
            .Where(f => !f.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal));
    }

    /// <summary>The texts of a piece of source; texts within the places of others are data.</summary>
    private static IEnumerable<string> Texts(string source)
    {
        for (int at = 0; at < source.Length; at++)
        {
            if (source[at] == '\'' && Sign().Match(source, at) is { Success: true } sign)
            {
                at += sign.Length - 1;
            }
            else if (source[at] == '"')
            {
                (string text, at) = Text(source, at + 1, at > 0 && source[at - 1] == '$');
                yield return text;
            }
        }
    }

    private static (string Text, int End) Text(string source, int at, bool hasPlaces)
    {
        StringBuilder text = new();
        int places = 0;
        for (; source[at] != '"'; at++)
        {
            if (source[at] == '\\')
            {
                text.Append(source[++at]);
            }
            else if (hasPlaces && source[at] is '{' && source[at + 1] != '{')
            {
                at = EndOfPlace(source, at);
                text.Append('{').Append(places++).Append('}');
            }
            else
            {
                at += hasPlaces && source[at] is '{' or '}' ? 1 : 0;
                text.Append(source[at]);
            }
        }

        return (text.ToString(), at);
    }

    private static int EndOfPlace(string source, int open)
    {
        int depth = 0;
        for (int at = open; ; at++)
        {
            depth += source[at] switch { '{' => 1, '}' => -1, _ => 0 };
            if (depth == 0)
            {
                return at;
            }

            if (source[at] == '"')
            {
                at = Text(source, at + 1, source[at - 1] == '$').End;
            }
        }
    }

    [GeneratedRegex(@"//[^\n]*")]
    private static partial Regex Comments();

    [GeneratedRegex(@";[ \t]*\n|\n[ \t]*\n|\{\n|\}\n")]
    private static partial Regex Statements();

    [GeneratedRegex(@"\G'(\\.|[^\\'])+'")]
    private static partial Regex Sign();

    [GeneratedRegex(@"\{\d+\}")]
    private static partial Regex Place();
}
