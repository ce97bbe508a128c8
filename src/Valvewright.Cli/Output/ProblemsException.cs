using Valvewright.Files.Problems;

namespace Valvewright.Cli.Output;

/// <summary>What a person gave can't be used; a command throws it and prints nothing else.</summary>
internal sealed class ProblemsException : Exception
{
    /// <summary>Takes the problems over, at least one, in the order of the input.</summary>
    public ProblemsException(IEnumerable<Problem> problems)
        : this(problems.ToListOf())
    {
    }

    /// <summary>Takes the problems over.</summary>
    public ProblemsException(params ListOf<Problem> problems)
        : base(string.Join('\n', problems)) => Problems = problems;

    /// <summary>Every problem found.</summary>
    public ListOf<Problem> Problems { get; }
}
