using System.Text.RegularExpressions;
using Valvewright.Files.Texts;
using Valvewright.Tests.Words;

namespace Valvewright.Server.Tests.Problems;

/// <summary>Whatever the server can say to people, reached by a test or not, has words in Spanish.</summary>
public sealed partial class RefusalsAreWorded
{
    /// <summary>What there can be none of, and what can have no id.</summary>
    private static readonly string[] Things = ["site", "plan", "visit", "reading", "trace", "photo", "job", "entry", "weather file", "feed",
        "record"];

    /// <summary>They stand in the same statements.</summary>
    private static readonly string[] NamesOfMembers = ["by", "from", "to", "name"];

    [Fact]
    public void Every_sentence_of_a_refusal_has_words_in_Spanish()
    {
        IReadOnlyCollection<string> said = SaidInSource.Patterns(["src/Valvewright.Server"], Saying(), IsName);
        Assert.Contains("This date cannot be right.", said);
        Assert.Contains("at most {0} characters on one line", said);
        Assert.Equal([], said.Where(s => !Sentences.InSpanish.ContainsKey(s)));
    }

    [Fact]
    public void So_have_the_things_that_there_can_be_none_of()
    {
        Assert.All(Things.Except(["record"]), thing =>
            Assert.Contains(char.ToUpperInvariant(thing[0]) + thing[1..] + " not found.", Sentences.InSpanish));
        Assert.All(Things.Except(["entry", "weather file"]), thing =>
            Assert.Contains("Not an id of a " + thing + ".", Sentences.InSpanish));
        IReadOnlyCollection<string> named = SaidInSource.Patterns(["src/Valvewright.Server"], Naming(), t => !Thing().IsMatch(t));
        Assert.Equal([], named.Except(Things).Except(NamesOfMembers));
    }

    /// <summary>Words at the end of a problem's type, of its members, and of kinds of records.</summary>
    private static bool IsName(string text) =>
        Kind().IsMatch(text) || Things.Contains(text) || text is " not found." or "Not an id of a " or "defect" or "refused" or " Path: "
        or "found" or "problems" or "expected" or "where" or "said" or "version" or "changed" or "current" or "given" or "common" or "yours" or "theirs" or "removed" or "fromCurrentToGiven"
        or "strangeControllers" or "breaches" or "/problems/{0}" or "{0}: {1}" or "name" or "weather";

    [GeneratedRegex(@"Refusal|Wrong\(|Sentence|=> \(""")]
    private static partial Regex Saying();

    [GeneratedRegex(@"NotFound\(|Given\.Id\(|Removing\.Of")]
    private static partial Regex Naming();

    [GeneratedRegex("^[a-z]+( [a-z]+)?$")]
    private static partial Regex Thing();

    [GeneratedRegex("^[a-z]+(-[a-z]+)+$")]
    private static partial Regex Kind();
}
