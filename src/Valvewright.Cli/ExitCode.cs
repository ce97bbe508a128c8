namespace Valvewright.Cli;

/// <summary>How the command ends; the same list is in docs/command-line.md and in <c>--help</c>.</summary>
internal static class ExitCode
{
    /// <summary>Done, and the answer is yes.</summary>
    public const int Done = 0;

    /// <summary>Done, and the answer is no: no plan exists, the proof failed, or a check found something.</summary>
    public const int AnswerIsNo = 1;

    /// <summary>The command line is not understood.</summary>
    public const int Usage = 2;

    /// <summary>A file that was given is missing or wrong.</summary>
    public const int WrongInput = 65;

    /// <summary>A service on the network did not answer as it should.</summary>
    public const int Unavailable = 69;

    /// <summary>A defect of valvewright itself.</summary>
    public const int Internal = 70;

    /// <summary>The result could not be written.</summary>
    public const int CannotWrite = 73;

    /// <summary>Stopped with Ctrl-C.</summary>
    public const int Stopped = 130;

    /// <summary>Every code with its meaning, for help.</summary>
    public static IReadOnlyList<(int Code, string Meaning)> All { get; } =
    [
        (Done, "done"),
        (AnswerIsNo, "finished, with a negative result: no plan, failed proof, or problems found"),
        (Usage, "wrong command line"),
        (WrongInput, "an input file is missing or wrong"),
        (Unavailable, "a weather service or a database did not answer correctly"),
        (Internal, "internal error"),
        (CannotWrite, "the result could not be written"),
        (Stopped, "stopped with Ctrl-C"),
    ];
}
