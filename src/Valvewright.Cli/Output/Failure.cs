using Valvewright.Files.Problems;
using Valvewright.Files.Texts;
using Valvewright.Store.Files;
using Valvewright.Work;

namespace Valvewright.Cli.Output;

/// <summary>Turns whatever went wrong into plain sentences and an exit code.</summary>
internal static class Failure
{
    /// <summary>Set to 1, it adds where in the program an internal failure happened.</summary>
    private const string DetailVariable = "VALVEWRIGHT_DETAIL";

    public static int Explain(Exception exception, bool json, TextWriter output, TextWriter error, Language language = Language.English)
    {
        (int code, ListOf<Problem> problems, string closing) = exception switch
        {
            ProblemsException wrong => (ExitCode.WrongInput, wrong.Problems, ""),
            RefusalException { Refusal: var refusal } =>
                (refusal is Work.Refusal.WeatherUnusable { IsOfService: true } ? ExitCode.Unavailable : ExitCode.WrongInput,
                    refusal.Problems, ""),
            StoreException refused => (DatabaseLoss.Caused(refused.InnerException) ? ExitCode.Unavailable : ExitCode.WrongInput, [],
                Sentences.Say(refused.What, language)),
            CannotWriteException refused => (ExitCode.CannotWrite, [], refused.Message),
            OperationCanceledException => (ExitCode.Stopped, [], Sentences.Say("Stopped.", language)),
            FileNotFoundException or DirectoryNotFoundException or UnauthorizedAccessException or IOException =>
                (ExitCode.WrongInput, [], exception.Message),
            HttpRequestException => (ExitCode.Unavailable, [], exception.Message),
            _ when DatabaseLoss.Caused(exception) => (ExitCode.Unavailable, [],
                Sentences.Say("The database was lost in the middle. Run the command again when it is back.", language)),
            _ => (ExitCode.Internal, (ListOf<Problem>)[], Internal(exception, language)),
        };
        if (json)
        {
            output.WriteLine(Json.Write(new FailureAnswer(code, problems, closing.Length > 0 ? closing : null)));
        }

        foreach (Problem problem in problems)
        {
            Write(error, problem, language);
        }

        string count = Sentences.Say(problems.Count == 1 ? (Sentence)"1 problem" : (Sentence)$"{problems.Count} problems", language);
        // Of a database that was lost while it answered, it is not known whether the last change was kept.
        bool isUnsure = exception is not StoreException && DatabaseLoss.Caused(exception);
        string[] said = [problems.Count > 0 ? $"{count}." : "", closing, isUnsure ? "" : Sentences.Say("Nothing was written.", language)];
        foreach (string line in Wrap.Lines($"valvewright: {string.Join(' ', said.Where(t => t.Length > 0))}", Sheet.Width))
        {
            error.WriteLine(line);
        }

        return code;
    }

    private static void Write(TextWriter error, Problem problem, Language language)
    {
        string where = problem.Line == 0 ? Sentences.Say(problem.Where, language) : problem.Where;
        List<string> lines = [problem.Message.Text.Length > 0 ? $"{where}: {Sentences.Say(problem.Message, language)}" : where];
        bool english = language == Language.English;
        if (problem.Found.Length > 0)
        {
            lines.Add($"    {(english ? "found:   " : "leído:   ")} {Printable.Of(Found(problem, language))}");
        }

        if (problem.Expected.Text.Length > 0)
        {
            lines.Add($"    {(english ? "expected:" : "esperado:")} {Sentences.Say(problem.Expected, language)}");
        }

        if (problem.Nearest is not null)
        {
            lines.Add($"    {(english ? "nearest: " : "parecido:")} {problem.Nearest}");
        }

        foreach (string line in lines.SelectMany((l, i) => Wrap.Lines(l, Sheet.Width, i == 0 ? 4 : 10)))
        {
            error.WriteLine(line);
        }
    }

    /// <summary>What a file holds is repeated as it is; what is said about the whole of something has words.</summary>
    private static string Found(Problem problem, Language language) =>
        problem.Line == 0 ? Sentences.Say(problem.Found, language) : problem.Found;

    private static string Internal(Exception exception, Language language)
    {
        string detail = Environment.GetEnvironmentVariable(DetailVariable) == "1" ? $"\n{exception}\n" : "";
        return $"{Sentences.Say("Internal error (a bug in valvewright, not in your files):", language)} {exception.GetType().Name}: {exception.Message}{detail}";
    }

    /// <summary>What <c>--json</c> prints instead of an answer.</summary>
    private sealed record FailureAnswer(int ExitCode, ListOf<Problem> Problems, string? Message);
}

/// <summary>The result could not be written; the message says where and why.</summary>
internal sealed class CannotWriteException(string message, Exception inner) : Exception(message, inner);
