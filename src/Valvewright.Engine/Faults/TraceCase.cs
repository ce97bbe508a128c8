using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Faults;

/// <summary>Who answered a step.</summary>
public enum AnswerSource
{
    /// <summary>A person.</summary>
    Person,

    /// <summary>The check of a reading.</summary>
    Check,

    /// <summary>The emulator, from the plan.</summary>
    Emulator,
}

/// <summary>What was said to a step.</summary>
/// <param name="Step">The step.</param>
/// <param name="Answer">The answer's word; null where a value was read or nothing is known.</param>
/// <param name="Value">The reading in the step's unit; an open circuit is a very large one.</param>
/// <param name="CannotDo">Whether it cannot be done. Without answer, value and this, no one knows.</param>
/// <param name="Source">Who answered.</param>
/// <param name="By">The person's name.</param>
/// <param name="At">Site time.</param>
public sealed record TraceAnswer(
    string Step, string? Answer = null, double? Value = null, bool CannotDo = false, AnswerSource Source = AnswerSource.Person,
        string? By = null, LocalDateTime? At = null)
{
    /// <summary>Whether it tells anything.</summary>
    public bool Tells => Answer is not null || Value is not null;
}

/// <summary>A trace as far as it has come: it can be put aside, read by another person, and taken up again.</summary>
public sealed record TraceCase
{
    /// <summary>The site's name.</summary>
    public required string Site { get; init; }

    /// <summary>The controller's name.</summary>
    public required string Controller { get; init; }

    /// <summary>The station; null where all of them or the controller are meant.</summary>
    public int? Station { get; init; }

    /// <summary>What the caller complains of.</summary>
    public required string Complaint { get; init; }

    /// <summary>Site time at which it began.</summary>
    public required LocalDateTime Began { get; init; }

    /// <summary>Whether only what a caller can do is asked.</summary>
    public bool OnPhone { get; init; }

    /// <summary>Needs of the model that are not at hand.</summary>
    public ListOf<string> Without { get; init; } = [];

    /// <summary>What is known of the site.</summary>
    public TraceFacts Facts { get; init; } = new();

    /// <summary>What was said, in order; a step at most once.</summary>
    public ListOf<TraceAnswer> Answers { get; init; } = [];

    /// <summary>Causes that were put right while the trouble stayed.</summary>
    public ListOf<string> Repaired { get; init; } = [];

    /// <summary>The cause that a repair confirmed; null before. Confirmed cases are what the weights learn from.</summary>
    public string? Confirmed { get; init; }

    /// <summary>The same with an answer; it takes the place of an earlier answer to the step.</summary>
    public TraceCase With(TraceAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return Answers.Any(a => a.Step == answer.Step)
            ? this with { Answers = Answers.Select(a => a.Step == answer.Step ? answer : a).ToListOf() }
            : this with { Answers = Answers.Add(answer) };
    }

    /// <summary>The same without the answer to a step.</summary>
    public TraceCase Forget(string step) => this with { Answers = Answers.Where(a => a.Step != step).ToListOf() };
}
