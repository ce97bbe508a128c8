using Microsoft.AspNetCore.Mvc;
using Valvewright.Files.Problems;
using Valvewright.Files.Texts;
using Valvewright.Records.Views;

namespace Valvewright.Server.Problems;

/// <summary>A request that is not done, with why: becomes a problem document (RFC 9457). Nothing has been stored when one is thrown.</summary>
/// <param name="status">Status code.</param>
/// <param name="kind">A word for programs; docs/api.md lists them.</param>
/// <param name="detail">A sentence for people.</param>
internal sealed class Refusal(int status, string kind, string detail) : Exception(detail)
{
    private readonly Dictionary<string, object?> more = [];

    public int Status => status;

    public string Kind => kind;

    /// <summary>Something of another person's site or of no site at all: both look the same.</summary>
    public static Refusal NotFound(string what) => new(StatusCodes.Status404NotFound, "not-found", $"There is no such {what}.");

    /// <summary>Something in what was sent can't be used.</summary>
    public static Refusal Wrong(string where, string found, string expected, string detail) =>
        new Refusal(StatusCodes.Status400BadRequest, "wrong-input", detail).With("where", where).With("found", Shown.Of(found)).With("expected", expected);

    /// <summary>A text that was sent has these problems.</summary>
    public static Refusal Of(IEnumerable<Problem> problems, string detail, string kind = "wrong-text") =>
        new Refusal(StatusCodes.Status422UnprocessableEntity, kind, detail)
            .With("problems", problems.Take(200).Select(p => Shown.Of(p)).ToArray());

    /// <summary>Adds a member to the document.</summary>
    public Refusal With(string member, object? value)
    {
        more[member] = value;
        return this;
    }

    /// <summary>The document.</summary>
    public ProblemDetails Document() => new()
    {
        Type = $"/problems/{kind}",
        Title = kind.Replace('-', ' '),
        Status = status,
        Detail = Message,
        Extensions = new Dictionary<string, object?>(more),
    };
}

/// <summary>What was found, short enough and plain enough to be shown.</summary>
internal static class Shown
{
    private const int Longest = 200;

    public static TextProblem Of(Problem p) => Of(p, Language.English);

    public static TextProblem Of(Problem p, Language language) =>
        new(p.File, p.Line, p.Column, Of(p.Found), Sentences.Say(p.Expected, language), p.Nearest, Sentences.Say(p.Message, language), p.Where);

    public static string Of(string? text)
    {
        text ??= "";
        string cut = text.Length > Longest ? text[..Longest] + " ..." : text;
        return string.Concat(cut.Select(c => char.IsControl(c) || char.IsSurrogate(c) ? $"\\u{(int)c:X4}" : c.ToString()));
    }
}
