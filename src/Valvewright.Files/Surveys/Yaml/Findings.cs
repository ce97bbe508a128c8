using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;

namespace Valvewright.Files.Surveys.Yaml;

/// <summary>All that is noticed while a survey is read.</summary>
internal sealed class Findings(string file)
{
    /// <summary>A file that is wrong throughout need not be answered line by line for ever.</summary>
    private const int MostProblems = 200;

    private readonly List<Problem> problems = [];
    private readonly List<Problem> warnings = [];
    private readonly List<Assumption> assumptions = [];

    internal ListOf<Assumption> Assumptions => assumptions.ToListOf();

    internal void Assume(string path, Sentence value, Sentence why) => assumptions.Add(new Assumption(path, value, why));

    internal void RefuseFile(string found, Sentence expected, Sentence message) => Refuse(0, 0, found, expected, null, message);

    internal void Refuse(SurveyNode at, Sentence expected, Sentence message, string? nearest = null) =>
        Add(new Problem(file, at.Line, at.Column, at.Shown, expected, nearest, message) { Path = at.Path });

    internal void Refuse(int line, int column, string found, Sentence expected, string? nearest, Sentence message) =>
        Add(new Problem(file, line, column, found, expected, nearest, message));

    /// <summary>Says that a key is missing.</summary>
    internal void RefuseAbsence(MapNode map, string key, Sentence expected, Sentence message) =>
        Add(new Problem(file, map.Line, map.Column, $"no '{key}'", expected, null, message)
            { Path = SurveyNode.Join(map.Path, key), IsAbsence = true });

    private void Add(Problem problem)
    {
        // A default of the site may be read for every zone: its fault is one fault.
        if (problems.Count < MostProblems && !problems.Contains(problem)) problems.Add(problem);
    }

    internal void Question(SurveyNode at, Sentence expected, Sentence message, string? nearest = null)
    {
        Problem question = new(file, at.Line, at.Column, at.Shown, expected, nearest, message) { Path = at.Path };
        if (warnings.Count < MostProblems && !warnings.Contains(question)) warnings.Add(question);
    }

    internal SurveyReading Reading(Site? site) => new(
        problems.Count == 0 ? site : null,
        InOrder(problems),
        InOrder(warnings));

    private static ListOf<Problem> InOrder(List<Problem> found) => found.OrderBy(p => p.Line).ThenBy(p => p.Column).ToListOf();
}
