using System.Text;
using System.Text.Json.Serialization;

namespace Valvewright.Files.Problems;

/// <summary>Something a person wrote that cannot be used: where it stands, what it is, and what would do.</summary>
/// <param name="File">The file, as the person named it.</param>
/// <param name="Line">Line, from 1; 0 where the whole file is meant.</param>
/// <param name="Column">Character in the line, from 1; 0 where the whole line is meant.</param>
/// <param name="Found">What is there.</param>
/// <param name="Expected">What could stand there.</param>
/// <param name="Nearest">The valid word nearest to what was found, if any is near.</param>
/// <param name="Message">The matter in one sentence, without a full stop.</param>
public sealed record Problem(string File, int Line, int Column, string Found, Sentence Expected, string? Nearest, Sentence Message)
{
    private const int LongestFound = 60;

    /// <summary>Which value of a survey it is about: <c>controllers/0/zones/2/area</c>; empty where the whole is meant.</summary>
    [JsonIgnore]
    public string Path { get; init; } = "";

    /// <summary>Whether a value is missing, not wrong.</summary>
    [JsonIgnore]
    public bool IsAbsence { get; init; }

    /// <summary>Where it is: <c>file:line:column</c>, as editors and terminals know it.</summary>
    public string Where => (Line, Column) switch
    {
        (0, _) => File,
        (_, 0) => $"{File}:{Line}",
        _ => $"{File}:{Line}:{Column}",
    };

    /// <summary>The whole in one line, for a terminal: where, the matter, what was found, what was expected, the nearest word.</summary>
    public override string ToString()
    {
        StringBuilder text = new($"{Where}: {Message}");
        string separator = ": ";
        if (Found.Length > 0)
        {
            text.Append($"{separator}found {Quoted(Found)}");
            separator = ", ";
        }

        if (Expected.Text.Length > 0)
        {
            text.Append($"{separator}expected {Expected}");
        }

        if (Nearest is not null)
        {
            text.Append($"; nearest is {Quoted(Nearest)}");
        }

        return text.ToString();
    }

    /// <summary>Text in quotes, with control characters made visible and long text cut.</summary>
    private static string Quoted(string text)
    {
        StringBuilder safe = new("\"");
        foreach (char c in text.AsSpan(0, Math.Min(text.Length, LongestFound)))
        {
            if (char.IsControl(c) || char.IsSurrogate(c) || c is '\u2028' or '\u2029' or '\uFEFF')
            {
                safe.Append($"\\u{(int)c:X4}");
            }
            else
            {
                safe.Append(c);
            }
        }

        return safe.Append(text.Length > LongestFound ? "...\"" : "\"").ToString();
    }
}
