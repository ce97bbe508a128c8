using System.Text.RegularExpressions;
using NodaTime;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Readings.Spoken;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks.Seen;

/// <summary>What was seen, read from a text: what was understood, and what was not.</summary>
/// <param name="Observations">In the order of the text.</param>
/// <param name="Doubts">What could mean more than one thing, or nothing.</param>
public sealed record SeenText(ListOf<Observation> Observations, ListOf<Doubt> Doubts)
{
    /// <summary>What was seen that no setting explains; it leads to fault finding.</summary>
    public ListOf<SeenComplaint> Complaints { get; init; } = [];
}

/// <summary>
/// Reads what an owner says: "ran at 19:30 on Tuesday; twice a night", "nothing for a week", "station 2 never comes on", "runs on the 31st
/// and the 1st". Statements are parted by semicolons, full stops or line ends; English and Spanish may mix.
/// </summary>
public static partial class ObservationText
{
    private const int LongestText = 4000;

    /// <summary>Reads a text; nothing typed makes it fail.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="clock">How times are said at the site.</param>
    /// <param name="names">Names of the site that may be spoken.</param>
    public static SeenText Parse(string text, ClockStyle clock, SiteNames? names = null)
    {
        ArgumentNullException.ThrowIfNull(text);
        List<Observation> seen = [];
        List<Doubt> doubts = [];
        List<SeenComplaint> complaints = [];
        string kept = text.Length > LongestText ? text[..LongestText] : text;
        int line = 1, lineStart = 0;
        foreach (Match statement in Statement().Matches(kept))
        {
            line += kept[lineStart..statement.Index].Count(c => c == '\n');
            lineStart = statement.Index;
            int column = statement.Index - (statement.Index == 0 ? -1 : kept.LastIndexOf('\n', statement.Index - 1));
            string typed = statement.Value.Trim();
            if (typed.Length == 0)
            {
                continue;
            }

            SeenStatement said = new(typed, clock, names ?? SiteNames.None);
            seen.AddRange(said.Seen);
            if (said.Complaint is { } complaint)
            {
                complaints.Add(complaint);
            }

            if (said.Asks is { } ask)
            {
                doubts.Add(new Doubt(line, Math.Max(1, column), typed, ask.Taken, ask.Otherwise, ask.Why, [])
                    { IsLeftOut = said.Seen.Count == 0 });
            }
        }

        if (kept.Length < text.Length)
        {
            doubts.Add(new Doubt(1, 1, "", "", "", $"Only the first {LongestText} characters were read", []));
        }

        return new SeenText(seen.ToListOf(), doubts.ToListOf()) { Complaints = complaints.ToListOf() };
    }

    /// <summary>A full stop parts statements only before a blank, so that "3.30 p.m." stays whole.</summary>
    [GeneratedRegex(@"(?:[^;\n.]|\.(?=\S)|(?<=\b[ap]\.?m)\.)+")]
    private static partial Regex Statement();
}
