using System.Text.Json;
using System.Text.Json.Nodes;
using Valvewright.Records.Views;

namespace Valvewright.App.Parts.Versions;

/// <summary>Two people changed one record: what the server told when it refused the second one.</summary>
public sealed class Meeting
{
    private static readonly string[] Texts = ["survey", "plan"];
    private readonly JsonElement theirs;
    private readonly JsonElement? yours;
    private readonly string? textMember;

    private Meeting(ProblemDocument problem, JsonElement theirs, JsonElement? yours)
    {
        (Problem, this.theirs, this.yours) = (problem, theirs, yours);
        textMember = Texts.FirstOrDefault(t => theirs.TryGetProperty(t, out JsonElement text) && text.ValueKind == JsonValueKind.String
            && theirs.TryGetProperty(t == "plan" ? "from" : "digest", out _));
        Pieces = textMember is null ? Members() : Lines(textMember);
        Sides = [.. Pieces.Select(p => p.Usual)];
    }

    /// <summary>What the server said.</summary>
    public ProblemDocument Problem { get; }

    /// <summary>The pieces, in order.</summary>
    public ListOf<Piece> Pieces { get; }

    /// <summary>The side taken of each piece.</summary>
    public Side[] Sides { get; }

    /// <summary>Whether the record is a text of lines.</summary>
    public bool IsText => textMember is not null;

    /// <summary>The version that a decision rests on, as <c>If-Match</c> wants it.</summary>
    public string Version => $"\"{Problem.Version}\"";

    /// <summary>Reads a refusal; null where it is not about two versions.</summary>
    /// <param name="problem">The problem document as text.</param>
    public static Meeting? Read(string problem) => Of(JsonSerializer.Deserialize<ProblemDocument>(problem, Json.Options));

    /// <summary>Takes a refusal; null where it is not about two versions.</summary>
    public static Meeting? Of(ProblemDocument? problem) =>
        problem is { Current: { ValueKind: JsonValueKind.Object } current, Version: not null,
            Given: { ValueKind: JsonValueKind.Object } given } ? new Meeting(problem, current, given) : null;

    /// <summary>The record as the sides chosen make it: the text itself where it is one, else JSON.</summary>
    public string Merged() => textMember is not null ? LinePieces.Joined(Pieces, i => Sides[i]) : MergedMembers();

    /// <summary>The record as it was given here, whole.</summary>
    public string Yours() => textMember is not null ? yours!.Value.GetProperty(textMember).GetString()! : yours!.Value.GetRawText();

    /// <summary>The record as the other person left it, whole.</summary>
    public string Theirs() => textMember is not null ? theirs.GetProperty(textMember).GetString()! : theirs.GetRawText();

    private ListOf<Piece> Lines(string member) => Problem.Common is { } common
        ? LinePieces.Of(common.GetProperty(member).GetString()!, ProblemDocument.Lines(Problem.Theirs),
            ProblemDocument.Lines(Problem.Yours))
        : LinePieces.Of(theirs.GetProperty(member).GetString()!, ProblemDocument.Lines(Problem.FromCurrentToGiven));

    private ListOf<Piece> Members()
    {
        IEnumerable<string> names = theirs.EnumerateObject().Select(p => p.Name)
            .Concat(yours!.Value.EnumerateObject().Select(p => p.Name)).Distinct();
        return names.Select(
            n => new Piece(n, 0, Problem.Common is { } common ? TextOf(common, n) : null, TextOf(theirs, n),
                TextOf(yours.Value, n))).ToListOf();
    }

    private string MergedMembers()
    {
        JsonObject whole = [];
        for (int i = 0; i < Pieces.Count; i++)
        {
            JsonElement from = Pieces[i].IsAgreed || Sides[i] == Side.Theirs ? theirs : yours!.Value;
            if (from.TryGetProperty(Pieces[i].Name, out JsonElement value))
            {
                whole[Pieces[i].Name] = JsonNode.Parse(value.GetRawText());
            }
        }

        return whole.ToJsonString(Json.Compact);
    }

    private static ListOf<string> TextOf(JsonElement whole, string member) =>
        !whole.TryGetProperty(member, out JsonElement value) || value.ValueKind == JsonValueKind.Null ? []
        : value.ValueKind == JsonValueKind.String ? value.GetString()!.ReplaceLineEndings("\n").Split('\n').ToListOf()
        : [value.GetRawText()];
}
