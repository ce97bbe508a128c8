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
        Refuse(at.Line, at.Column, at.Shown, expected, nearest, message);

    internal void Refuse(int line, int column, string found, Sentence expected, string? nearest, Sentence message)
    {
        Problem problem = new(file, line, column, found, expected, nearest, message);
        // A default of the site may be read for every zone: its fault is one fault.
        if (problems.Count < MostProblems && !problems.Contains(problem)) problems.Add(problem);
    }

    internal void Question(SurveyNode at, Sentence expected, Sentence message, string? nearest = null)
    {
        Problem question = new(file, at.Line, at.Column, at.Shown, expected, nearest, message);
        if (warnings.Count < MostProblems && !warnings.Contains(question)) warnings.Add(question);
    }

    internal SurveyReading Reading(Site? site) => new(
        problems.Count == 0 ? site : null,
        InOrder(problems),
        InOrder(warnings));

    private static ListOf<Problem> InOrder(List<Problem> found) => found.OrderBy(p => p.Line).ThenBy(p => p.Column).ToListOf();
}
