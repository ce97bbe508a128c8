using Valvewright.App.Texts;
using Valvewright.Engine.Survey;
using Valvewright.Files.Problems;

namespace Valvewright.App.Pages.Survey;

/// <summary>Problems and assumptions of a survey in the person's language.</summary>
public static class Said
{
    /// <summary>A problem in a sentence: the matter, what would do, the nearest valid word.</summary>
    public static string Problem(PageWords words, Problem problem)
    {
        ArgumentNullException.ThrowIfNull(words);
        ArgumentNullException.ThrowIfNull(problem);
        string expected = problem.Expected.Text.Length > 0 ? $" {words.Fill("survey.expected", ("what", words.Say(problem.Expected)))}" : "";
        string nearest = problem.Nearest is { } word ? $" {words.Fill("survey.nearest", ("word", word))}" : "";
        return $"{words.Say(problem.Message).TrimEnd('.')}.{expected}{nearest}";
    }

    /// <summary>What an assumption is about: whose it is, as the survey names them, and the survey's own keys in words.</summary>
    public static (string Whose, string What) Place(PageWords words, Assumption assumption)
    {
        ArgumentNullException.ThrowIfNull(words);
        ArgumentNullException.ThrowIfNull(assumption);
        string[] steps = assumption.Path.Split('/');
        // Names of supplies, controllers and zones may hold a stroke of their own; keys never do, so the keys are counted from the end.
        int keys = steps.Length - Array.FindLastIndex(steps, s => s is "zones" or "controllers" or "supplies" or "profiles") - 2;
        int from = steps.Any(s => s is "zones" or "controllers" or "supplies" or "profiles") ? steps.Length - Math.Max(1, keys) : 0;
        IEnumerable<string> names = steps[..from].Where(s => s is not ("zones" or "controllers" or "supplies" or "profiles"));
        return (string.Join(", ", names), string.Join(": ", steps[from..].Select(key => Key(words, key))));
    }

    /// <summary>A key of the survey in words; itself where it has none.</summary>
    public static string Key(PageWords words, string key)
    {
        ArgumentNullException.ThrowIfNull(words);
        string name = $"survey.key.{key}";
        return words.All.Names.Contains(name) ? words.All[name] : key;
    }
}
