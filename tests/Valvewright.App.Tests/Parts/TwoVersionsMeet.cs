using System.Text.Json;
using CsCheck;
using Valvewright.App.Parts.Versions;
using Valvewright.Engine.Values;
using Valvewright.Records.Views;

namespace Valvewright.App.Tests.Parts;

/// <summary>Whatever two people wrote, each version can be had back whole from the pieces, and what only one of them changed is
/// taken.</summary>
public sealed class TwoVersionsMeet
{
    [Fact]
    public void Changes_in_different_places_come_together_by_themselves()
    {
        ListOf<Piece> pieces = LinePieces
            .Of("a\nb\nc\nd\ne", [new LineChange(2, 2, ["b"], ["B"])], [new LineChange(5, 5, ["e"], ["E", "F"])]);
        Assert.DoesNotContain(pieces, p => p.NeedsDecision);
        Assert.Equal("a\nB\nc\nd\nE\nF", LinePieces.Joined(pieces, i => pieces[i].Usual));
    }

    [Fact]
    public void One_line_changed_by_both_asks_for_a_decision_and_both_can_be_kept()
    {
        ListOf<Piece> pieces = LinePieces.Of("a\nb\nc", [new LineChange(2, 2, ["b"], ["theirs"])], [new LineChange(2, 2, ["b"], ["mine"])]);
        Piece both = Assert.Single(pieces, p => p.NeedsDecision);
        Assert.Equal(2, both.Line);
        Assert.Equal("a\ntheirs\nmine\nc", LinePieces.Joined(pieces, _ => Side.Both));
    }

    [Fact]
    public void Both_made_the_same_change_and_nobody_is_asked()
    {
        ListOf<Piece> pieces = LinePieces.Of("a\nb", [new LineChange(2, 2, ["b"], ["x"])], [new LineChange(2, 2, ["b"], ["x"])]);
        Assert.All(pieces, p => Assert.True(p.IsAgreed));
        Assert.Equal("a\nx", LinePieces.Joined(pieces, _ => Side.Both));
    }

    [Fact]
    public void Without_what_both_began_with_every_difference_is_asked()
    {
        ListOf<Piece> pieces = LinePieces.Of("a\nb\nc", [new LineChange(3, 3, ["c"], ["d"])]);
        Assert.Single(pieces, p => p.NeedsDecision);
        Assert.Equal("a\nb\nd", LinePieces.Joined(pieces, _ => Side.Yours));
        Assert.Equal("a\nb\nc", LinePieces.Joined(pieces, _ => Side.Theirs));
    }

    [Fact]
    public void Each_version_comes_back_whole_whatever_was_changed()
    {
        string[] lines = ["a", "b", "c", "", "- d"];
        Gen<string[]> text = Gen.Int[0, lines.Length - 1].Select(i => lines[i]).Array[0, 12];
        Gen.Select(text, text, text).Sample((common, theirs, yours) =>
        {
            ListOf<Piece> pieces = LinePieces.Of(string.Join('\n', common), Changes(common, theirs), Changes(common, yours));
            return LinePieces.Joined(pieces, _ => Side.Theirs) == Joined(theirs)
                && LinePieces.Joined(pieces, _ => Side.Yours) == Joined(yours);
        });
    }

    [Fact]
    public void Members_of_a_record_are_taken_one_by_one()
    {
        Meeting meeting = Meeting.Read(Refusal(
            """{"controller":"Gate","notes":"","batteryVolts":7.1,"meterM3":null}""",
            """{"controller":"Gate","notes":"wet box","batteryVolts":7.1,"meterM3":12}""",
            """{"controller":"Gate","notes":"","batteryVolts":8.9,"meterM3":13}"""))!;
        Assert.False(meeting.IsText);
        Assert.Equal("\"7\"", meeting.Version);
        Assert.Equal("meterM3", Assert.Single(meeting.Pieces, p => p.NeedsDecision).Name);
        Assert.Equal("""{"controller":"Gate","notes":"wet box","batteryVolts":8.9,"meterM3":13}""", meeting.Merged());
    }

    [Fact]
    public void A_survey_is_taken_line_by_line_and_comes_out_as_its_text()
    {
        static string Site(string survey) => JsonSerializer.Serialize(new { name = "x", survey, digest = "d" });
        Meeting meeting = Meeting.Read(Refusal(
            Site("site: x\nslope: 1 %\nunits: us"), Site("site: x\nslope: 2 %\nunits: us"), Site("site: x\nslope: 1 %\nunits: metric"),
            [new LineChange(2, 2, ["slope: 1 %"], ["slope: 2 %"])], [new LineChange(3, 3, ["units: us"], ["units: metric"])]))!;
        Assert.True(meeting.IsText);
        // The two changes meet, so they are one piece that a person must look at.
        Assert.Single(meeting.Pieces, p => p.NeedsDecision);
        Assert.Equal("site: x\nslope: 1 %\nunits: metric", meeting.Yours());
        Assert.Equal("site: x\nslope: 2 %\nunits: us", meeting.Theirs());
    }

    [Fact]
    public void Another_problem_is_no_meeting() =>
        Assert.Null(Meeting.Read("""{"type":"/problems/wrong-text","title":"Wrong text","status":422,"detail":"No."}"""));

    private static string Refusal(
        string common, string current, string given, ListOf<LineChange>? theirs = null, ListOf<LineChange>? yours = null) => $$"""
        {"type":"/problems/changed-since","title":"Changed since","status":412,"detail":"Somebody has changed it since.","version":7,
         "common":{{common}},"current":{{current}},"given":{{given}},"theirs":{{Json.Write(theirs)}},"yours":{{Json.Write(yours)}}}
        """;

    /// <summary>One change from the first to the last line that differ.</summary>
    private static ListOf<LineChange> Changes(string[] from, string[] to)
    {
        (from, to) = (Joined(from).Split('\n'), Joined(to).Split('\n'));
        int head = 0, tail = 0;
        while (head < from.Length && head < to.Length && from[head] == to[head]) head++;
        while (tail < from.Length - head && tail < to.Length - head && from[^(tail + 1)] == to[^(tail + 1)]) tail++;
        return head == from.Length && head == to.Length ? []
            : [new LineChange(head + 1, head + 1, from[head..^tail].ToListOf(), to[head..^tail].ToListOf())];
    }

    private static string Joined(string[] lines) => string.Join('\n', lines);
}
