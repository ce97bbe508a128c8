using Valvewright.Files.Problems;
using Valvewright.Store.Files;
using Valvewright.Work;

namespace Valvewright.Cli.Output;

/// <summary>Turns whatever went wrong into plain sentences and an exit code.</summary>
internal static class Failure
{
    /// <summary>Set to 1, it adds where in the program an internal failure happened.</summary>
    private const string DetailVariable = "VALVEWRIGHT_DETAIL";

    public static int Explain(Exception exception, bool json, TextWriter output, TextWriter error)
    {
        (int code, ListOf<Problem> problems, string closing) = exception switch
        {
            ProblemsException wrong => (ExitCode.WrongInput, wrong.Problems, ""),
            RefusalException { Refusal: var refusal } =>
                (refusal is Work.Refusal.WeatherUnusable { IsOfService: true } ? ExitCode.Unavailable : ExitCode.WrongInput, refusal.Problems, ""),
            StoreException refused => (ExitCode.WrongInput, [], refused.Message),
            CannotWriteException refused => (ExitCode.CannotWrite, [], refused.Message),
            OperationCanceledException => (ExitCode.Stopped, [], "Stopped."),
            FileNotFoundException or DirectoryNotFoundException or UnauthorizedAccessException or IOException =>
                (ExitCode.WrongInput, [], exception.Message),
            HttpRequestException => (ExitCode.Unavailable, [], exception.Message),
            _ => (ExitCode.Internal, (ListOf<Problem>)[], Internal(exception)),
        };
        if (json)
        {
            output.WriteLine(Json.Write(new FailureAnswer(code, problems, closing.Length > 0 ? closing : null)));
        }

        foreach (Problem problem in problems)
        {
            Write(error, problem);
        }

        string count = problems.Count == 1 ? "1 problem" : $"{problems.Count} problems";
        foreach (string line in Wrap.Lines($"valvewright: {(problems.Count > 0 ? count + ". " : "")}{closing}{(closing.Length > 0 ? " " : "")}Nothing was written.", Sheet.Width))
        {
            error.WriteLine(line);
        }

        return code;
    }

    private static void Write(TextWriter error, Problem problem)
    {
        List<string> lines = [problem.Message.Text.Length > 0 ? $"{problem.Where}: {problem.Message}" : problem.Where];
        if (problem.Found.Length > 0)
        {
            lines.Add($"    found:    {Printable.Of(problem.Found)}");
        }

        if (problem.Expected.Text.Length > 0)
        {
            lines.Add($"    expected: {problem.Expected}");
        }

        if (problem.Nearest is not null)
        {
            lines.Add($"    nearest:  {problem.Nearest}");
        }

        foreach (string line in lines.SelectMany((l, i) => Wrap.Lines(l, Sheet.Width, i == 0 ? 4 : 10)))
        {
            error.WriteLine(line);
        }
    }

    private static string Internal(Exception exception)
    {
        string detail = Environment.GetEnvironmentVariable(DetailVariable) == "1" ? $"\n{exception}\n" : "";
        return $"This is a defect of valvewright, not of what you gave it: {exception.GetType().Name}: {exception.Message}{detail}";
    }

    /// <summary>What <c>--json</c> prints in place of an answer.</summary>
    private sealed record FailureAnswer(int ExitCode, ListOf<Problem> Problems, string? Message);
}

/// <summary>The result could not be written; the message says where and why.</summary>
internal sealed class CannotWriteException(string message, Exception inner) : Exception(message, inner);
