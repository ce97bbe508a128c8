using System.Text.Json;
using System.Text.Json.Serialization;
using Valvewright.Engine.Words;

namespace Valvewright.Records.Views;

/// <summary>Something in a text that cannot be used, or is questioned: where it stands, what it is, and what would do.</summary>
/// <param name="File">What the text is: <c>survey</c>, <c>plan</c>, or the name of a file.</param>
/// <param name="Line">Line, from 1; 0 where the whole text is meant.</param>
/// <param name="Column">Character in the line, from 1; 0 where the whole line is meant.</param>
/// <param name="Found">What is there.</param>
/// <param name="Expected">What could stand there.</param>
/// <param name="Nearest">The valid word nearest to what was found, if any is near.</param>
/// <param name="Message">The matter in one sentence, without a full stop.</param>
/// <param name="Where">Where it is, as <c>file:line:column</c>.</param>
public sealed record TextProblem(
    string File, int Line, int Column, string Found, string Expected, string? Nearest, string Message, string Where)
{
    /// <summary>What is said of it, with places, so that it can be said in any language.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public SaidOfProblem? Said { get; init; }
}

/// <summary>The sentences of a problem with their places; each stands in English beside it under the same name.</summary>
/// <param name="Detail">What is wrong.</param>
/// <param name="Where">Where it is.</param>
/// <param name="Found">What was found.</param>
/// <param name="Expected">What would do.</param>
public sealed record SaidOfProblem(
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] SentenceParts? Detail = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] SentenceParts? Where = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] SentenceParts? Found = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] SentenceParts? Expected = null);

/// <summary>Why something was not done (RFC 9457); docs/api.md lists the words at the end of <see cref="Type"/>.</summary>
/// <param name="Type"><c>/problems/</c> and a word.</param>
/// <param name="Title">The word in plain letters.</param>
/// <param name="Status">Status code.</param>
/// <param name="Detail">A sentence for people.</param>
public sealed record ProblemDocument(string Type, string Title, int Status, string Detail)
{
    /// <summary>Where it is.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Where { get; init; }

    /// <summary>What was found.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Found { get; init; }

    /// <summary>What would do.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Expected { get; init; }

    /// <summary>The sentences of <see cref="Detail"/>, <see cref="Where"/>, <see cref="Found"/> and <see cref="Expected"/> with their
    /// places.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public SaidOfProblem? Said { get; init; }

    /// <summary>The problems of a text, one by one.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public ListOf<TextProblem>? Problems { get; init; }

    /// <summary>Another person was first: the version that stands.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public long? Version { get; init; }

    /// <summary>Another person was first: who, and when.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public Stamp? Changed { get; init; }

    /// <summary>Another person was first: the record was removed.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public bool? Removed { get; init; }

    /// <summary>Another person was first: their value, as it stands.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public JsonElement? Current { get; init; }

    /// <summary>Another person was first: the value that was sent.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public JsonElement? Given { get; init; }

    /// <summary>Another person was first: the value that both began with.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public JsonElement? Common { get; init; }

    /// <summary>What they have changed since <see cref="Common"/>: <see cref="LineChange"/>s of surveys and plans,
    /// <see cref="MemberChange"/>s of other records.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public JsonElement? Theirs { get; init; }

    /// <summary>What was changed here since <see cref="Common"/>.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public JsonElement? Yours { get; init; }

    /// <summary>What lies between their value and the one that was sent.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public JsonElement? FromCurrentToGiven { get; init; }

    /// <summary>Anything else that it says.</summary>
    [JsonExtensionData]
    public Dictionary<string, JsonElement>? More { get; set; }

    /// <summary>The word at the end of <see cref="Type"/>.</summary>
    [JsonIgnore]
    public string Kind => Type[(Type.LastIndexOf('/') + 1)..];

    /// <summary>One of the lists of changes as lines.</summary>
    public static ListOf<LineChange> Lines(JsonElement? changes) => changes?.Deserialize<ListOf<LineChange>>(Json.Options) ?? [];

    /// <summary>One of the lists of changes as members.</summary>
    public static ListOf<MemberChange> Members(JsonElement? changes) => changes?.Deserialize<ListOf<MemberChange>>(Json.Options) ?? [];
}

/// <summary>Lines that differ between two texts.</summary>
/// <param name="FromLine">Line of the first text, from 1, before which or at which it begins.</param>
/// <param name="ToLine">The same of the second text.</param>
/// <param name="Removed">Lines of the first text that the second lacks.</param>
/// <param name="Added">Lines of the second text that the first lacks.</param>
public sealed record LineChange(int FromLine, int ToLine, ListOf<string> Removed, ListOf<string> Added);

/// <summary>A member that differs between two values.</summary>
/// <param name="Member">Its name.</param>
/// <param name="From">What the first says; null where it says nothing.</param>
/// <param name="To">What the second says.</param>
public sealed record MemberChange(string Member, JsonElement? From, JsonElement? To);
