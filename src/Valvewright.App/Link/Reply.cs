namespace Valvewright.App.Link;

/// <summary>What came of a request to the server: an answer, a problem, or no server.</summary>
/// <param name="Value">The answer; null where there is none.</param>
/// <param name="ETag">The version of the answer, as the server wrote it.</param>
/// <param name="Trouble">Why it was refused; null where it was not.</param>
/// <param name="IsUnreachable">No server answered.</param>
public sealed record Reply<T>(T? Value, string? ETag, Trouble? Trouble, bool IsUnreachable)
{
    /// <summary>Something answered that is not the server, such as the sign-in page of a network; counts as no server.</summary>
    public bool IsStranger { get; init; }

    /// <summary>It was done.</summary>
    public bool IsDone => Trouble is null && !IsUnreachable;
}
