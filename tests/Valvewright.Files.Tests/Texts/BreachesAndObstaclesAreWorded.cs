using Valvewright.Files.Texts;
using Valvewright.Tests.Words;

namespace Valvewright.Files.Tests.Texts;

/// <summary>What the proof, the planner, the split of years and wishes for visits say has words in Spanish, whether a test reaches it or
/// not.</summary>
public sealed class BreachesAndObstaclesAreWorded
{
    private static readonly string[] Names =
        ["HH:mm", "h:mm tt", "MMMM", "{0} L/min", "{0} gpm", "{0} and {1}", "A record without days cannot be split into years."];

    [Theory]
    [InlineData("src/Valvewright.Engine/Proof/Rules", "a run time, but no zone is wired to it")]
    [InlineData("src/Valvewright.Engine/Proof/FlowSweep.cs", "more flow wanted than it gives, by {0}")]
    [InlineData("src/Valvewright.Planning/Advice/ObstacleWords.cs", "Its flow is short by at least {0}.")]
    [InlineData("src/Valvewright.Planning/Advice/InWords.cs", "{0} minutes")]
    [InlineData("src/Valvewright.Engine/Weather/YearSplit.cs", "Planned with {0} years ({1}), proven on {2} others ({3}).{4}")]
    [InlineData("src/Valvewright.Engine/Season/VisitDays.cs", "{0} visits a year; 1 to 12 can be planned.")]
    [InlineData("src/Valvewright.Planning/Season/SeasonSearch.cs",
        "No {0} dates satisfy the wishes: they lie too close together, or an agreed date is skipped.")]
    public void What_is_said_has_words_in_Spanish(string source, string among)
    {
        IReadOnlyCollection<string> said = SaidInSource.Patterns([source], null, t => Names.Contains(t) || IsPlace(t));
        Assert.Contains(among, said);
        Assert.Equal([], said.Where(s => !Sentences.InSpanish.ContainsKey(s)));
    }

    /// <summary><c>North, program A, station 3 (Lawn)</c>: the page finds its two plain words in it.</summary>
    private static bool IsPlace(string text) => text is "{0}, program {1}" or "{0}, station {1}" or "{0}, station {1} ({2})";
}
