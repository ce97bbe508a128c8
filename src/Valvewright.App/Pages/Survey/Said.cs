using Valvewright.App.Texts;
using Valvewright.Engine.Survey;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys.Fields;

namespace Valvewright.App.Pages.Survey;

/// <summary>Problems and assumptions of a survey in the person's language.</summary>
public static class Said
{
    /// <summary>The lists of named things, each with the path of its fields.</summary>
    private static readonly Dictionary<string, string> Lists = new()
    {
        ["supplies"] = "supplies", ["controllers"] = "controllers", ["zones"] = "controllers/zones", ["profiles"] = "profiles",
    };

    /// <summary>A problem in a sentence: the matter, what would do, the nearest valid word.</summary>
    public static string Problem(PageWords words, Problem problem)
    {
        ArgumentNullException.ThrowIfNull(words);
        ArgumentNullException.ThrowIfNull(problem);
        string expected = problem.Expected.Text.Length > 0
            ? $" {words.Fill("survey.expected", ("what", words.Say(problem.Expected)))}" : "";
        string nearest = problem.Nearest is { } word ? $" {words.Fill("survey.nearest", ("word", word))}" : "";
        return $"{words.Say(problem.Message).TrimEnd('.')}.{expected}{nearest}";
    }

    /// <summary>What an assumption is about: whose it is, as the survey names them, and the survey's own sets words.</summary>
    public static (string Whose, string What) Place(PageWords words, Assumption assumption)
    {
        ArgumentNullException.ThrowIfNull(words);
        ArgumentNullException.ThrowIfNull(assumption);
        string[] steps = assumption.Path.Split('/');
        // Names of supplies, controllers and zones may hold a stroke of their own; keys never do, so the keys are counted from the end.
        int list = Array.FindLastIndex(steps, Lists.ContainsKey);
        int from = list < 0 ? 0 : steps.Length - Math.Max(1, steps.Length - list - 2);
        string group = list < 0 ? "" : Lists[steps[list]];
        IEnumerable<string> labels = steps.Skip(from).Select((key, i) =>
            SurveyTable.At($"{group}/{string.Join('/', steps[from..(from + i + 1)])}") is { } field ? words.Of(field.Label) : key);
        return (string.Join(", ", steps[..from].Where(s => !Lists.ContainsKey(s))), string.Join(": ", labels));
    }
}
