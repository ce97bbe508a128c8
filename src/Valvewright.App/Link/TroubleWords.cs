using System.Text.Json;
using Valvewright.App.Texts;
using Valvewright.Engine.Words;
using Valvewright.Files.Texts;
using Valvewright.Records.Views;

namespace Valvewright.App.Link;

/// <summary>Why the server did not do something, in the person's language.</summary>
public static class TroubleWords
{
    /// <summary>More problems of one text than these are not read to the end.</summary>
    private const int MostProblems = 5;

    /// <summary>Of these the page itself has more to say than the server, which does not know what the person sees.</summary>
    private static readonly string[] ToldByThePage =
        ["not-found", "weather-missing", "weather-not-named", "weather-unusable", "weather-too-short", "plan-does-not-fit", "defect"];

    /// <summary>Why the server refused something.</summary>
    public static string Told(this PageWords words, Trouble? trouble) =>
        words.Told(trouble is { Whole.ValueKind: JsonValueKind.Object } ? Read(trouble.Whole) : null, trouble?.Detail ?? "");

    /// <summary>Why work could not be done; the problems of a text are told apart.</summary>
    public static string Told(this PageWords words, ProblemDocument? problem) =>
        words.Told(problem is null ? null : problem with { Problems = null }, problem?.Detail ?? "");

    /// <summary>A problem of a text in the person's language; null where it has no words in it.</summary>
    public static string? Line(this PageWords words, TextProblem problem)
    {
        if (words.Spoken(problem.Said?.Detail) is not { Length: > 0 } matter)
        {
            return null;
        }

        string said = problem.Found.Length > 0 ? words
            .Fill("problem.quoting", ("matter", matter.TrimEnd('.')), ("found", problem.Found.TrimEnd('.'))) : $"{matter.TrimEnd('.')}.";
        string line = problem.Line > 0 ? words.Fill("problem.line", ("line", problem.Line), ("what", said)) : said;
        return Filled(words, "problem.expected", problem.Said?.Expected) is { Length: > 0 } expected ? $"{line} {expected}" : line;
    }

    /// <summary>What the server itself says, in the person's language; null where it has no words in it.</summary>
    public static string? Own(this PageWords words, ProblemDocument? problem)
    {
        if (problem?.Said is not { } said || words.Spoken(said.Detail) is not { Length: > 0 } detail)
        {
            return null;
        }

        IEnumerable<string> more = (problem.Problems ?? []).Take(MostProblems).Select(p => words.Line(p) ?? "")
            .Prepend(Filled(words, "problem.expected", said.Expected)).Prepend(Filled(words, "problem.found", said.Found))
                .Where(t => t.Length > 0);
        return string.Join(' ', more.Prepend(detail));
    }

    private static string Told(this PageWords words, ProblemDocument? problem, string detail)
    {
        string name = $"problem.{problem?.Kind}";
        bool isNamed = words.All.Names.Contains(name);
        return isNamed && ToldByThePage.Contains(problem?.Kind) ? words[name]
            : words.Own(problem) ?? (isNamed ? words[name] : words.Fill("problem.other", ("detail", detail)));
    }

    private static string? Spoken(this PageWords words, SentenceParts? parts) =>
        parts?.ToSentence() is { } sentence && words.Speaks(sentence) ? words.Say(sentence) : null;

    private static string Filled(PageWords words, string name, SentenceParts? parts) =>
        words.Spoken(parts) is { Length: > 0 } said ? words.Fill(name, ("what", said)) : "";

    private static ProblemDocument? Read(JsonElement whole)
    {
        try
        {
            return whole.Deserialize<ProblemDocument>(Json.Options);
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
