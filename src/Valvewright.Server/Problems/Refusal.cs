using Microsoft.AspNetCore.Mvc;
using Valvewright.Files.Problems;
using Valvewright.Files.Texts;
using Valvewright.Records.Views;

namespace Valvewright.Server.Problems;

/// <summary>A request that is not done, with why: becomes a problem document (RFC 9457). Nothing has been stored when one is
/// thrown.</summary>
/// <param name="status">Status code.</param>
/// <param name="kind">A word for programs; docs/api.md lists them.</param>
/// <param name="detail">A sentence for people.</param>
internal sealed class Refusal(int status, string kind, Sentence detail) : Exception(detail.Text)
{
    private readonly Dictionary<string, object?> more = [];
    private SaidOfProblem said = new(Shown.Parts(detail));

    public int Status => status;

    public string Kind => kind;

    /// <summary>Something of another person's site or of no site at all: both look the same.</summary>
    public static Refusal NotFound(string what) =>
        new(StatusCodes.Status404NotFound, "not-found", char.ToUpperInvariant(what[0]) + what[1..] + " not found.");

    /// <summary>Something in what was sent can't be used.</summary>
    public static Refusal Wrong(Sentence where, Sentence found, Sentence expected, Sentence detail) =>
        new Refusal(StatusCodes.Status400BadRequest, "wrong-input", detail).At(where).Found(found).Expecting(expected);

    /// <summary>Something in what was sent can't be understood, as a library says in its own words.</summary>
    public static Refusal Garbled(Sentence where, string found, Sentence expected, Sentence detail) =>
        new Refusal(StatusCodes.Status400BadRequest, "wrong-input", detail).At(where).With("found", Shown.Of(found)).Expecting(expected);

    /// <summary>A text that was sent has these problems.</summary>
    public static Refusal Of(IEnumerable<Problem> problems, Sentence detail, string kind = "wrong-text") =>
        new Refusal(StatusCodes.Status422UnprocessableEntity, kind, detail)
            .With("problems", problems.Take(200).Select(p => Shown.Of(p)).ToArray());

    /// <summary>Says where it is.</summary>
    public Refusal At(Sentence where)
    {
        said = said with { Where = Shown.Parts(where) };
        return With("where", where.Text);
    }

    /// <summary>Says what was found.</summary>
    public Refusal Found(Sentence found)
    {
        said = said with { Found = Shown.Parts(found) };
        return With("found", Shown.Of(found.Text));
    }

    /// <summary>Says what would do.</summary>
    public Refusal Expecting(Sentence expected)
    {
        said = said with { Expected = Shown.Parts(expected) };
        return With("expected", expected.Text);
    }

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
        Extensions = new Dictionary<string, object?>(more) { ["said"] = said },
    };
}

/// <summary>What was found, short enough and plain enough to be shown.</summary>
internal static class Shown
{
    private const int Longest = 200;

    public static TextProblem Of(Problem p) => Of(p, Language.English);

    public static TextProblem Of(Problem p, Language language) =>
        new(p.File, p.Line, p.Column, Of(p.Found), Sentences.Say(p.Expected, language), p.Nearest,
            Sentences.Say(p.Message, language), p.Where)
        {
            Said = new SaidOfProblem(Parts(p.Message), Expected: Parts(p.Expected)),
        };

    /// <summary>The parts of a sentence, what was sent cut short.</summary>
    public static SentenceParts Parts(Sentence sentence) => Short(SentenceParts.Of(sentence));

    /// <summary>One of some words, in English.</summary>
    public static Sentence OneOf(IEnumerable<string> words) =>
        words.Select(w => (Sentence)$"{w}").Aggregate((one, other) => $"{one} or {other}");

    public static string Of(string? text)
    {
        text ??= "";
        string cut = text.Length > Longest ? text[..Longest] + " ..." : text;
        return string.Concat(cut.Select(c => char.IsControl(c) || char.IsSurrogate(c) ? $"\\u{(int)c:X4}" : c.ToString()));
    }

    private static SentenceParts Short(SentenceParts parts) =>
        parts with { Places = parts.Places.Select(p =>
            p with { Text = p.Text is null ? null : Of(p.Text), Sentence = p.Sentence is null ? null : Short(p.Sentence) }).ToListOf() };
}
