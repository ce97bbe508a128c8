using System.CommandLine;
using Valvewright.Cli.Output;
using Valvewright.Files.Texts;

namespace Valvewright.Cli.Commands;

/// <summary>One thing that valvewright does, with at least one example for its help page.</summary>
internal sealed class Job : Command
{
    private readonly Option<bool> json = new("--json") { Description = "Print the answer as one JSON document instead of text." };
    private readonly Option<bool> progress = new("--progress")
        { Description = "Report progress on standard error, even when it is not a terminal." };

    /// <summary>A command with the options that every command has.</summary>
    /// <param name="name">The word to type.</param>
    /// <param name="description">One sentence for help.</param>
    /// <param name="examples">Whole command lines that work in a fresh checkout.</param>
    public Job(string name, string description, params string[] examples)
        : base(name, description)
    {
        Examples = examples;
        Options.Add(json);
        Options.Add(progress);
        Options.Add(LanguageOption.Make());
    }

    /// <summary>Whole command lines, for help.</summary>
    public IReadOnlyList<string> Examples { get; }

    /// <summary>Sets what the command does.</summary>
    /// <param name="work">
    /// Reads its options from the parse result, puts its answer on the sheet and gives the exit code. Whatever it throws
    /// becomes a plain sentence; what it had printed till then is thrown away, so an answer is whole or absent.
    /// </param>
    public Job Does(Func<ParseResult, Sheet, CancellationToken, int> work)
    {
        SetAction((parse, cancel) => Task.Run(() => Run(parse, work, cancel), CancellationToken.None));
        return this;
    }

    private static void Release(Sheet sheet)
    {
        try
        {
            sheet.Release(Console.Out);
        }
        catch (IOException reason)
        {
            throw new CannotWriteException($"standard output: {reason.Message}", reason);
        }
    }

    private int Run(ParseResult parse, Func<ParseResult, Sheet, CancellationToken, int> work, CancellationToken cancel)
    {
        bool wantsJson = parse.GetValue(json);
        Language spoken = LanguageOption.Of(parse);
        using Progress steps = new(
            Console.Error, parse.GetValue(progress) || !Console.IsErrorRedirected, !Console.IsErrorRedirected, language: spoken);
        Sheet sheet = new(wantsJson, steps, spoken);
        try
        {
            int code = work(parse, sheet, cancel);
            steps.Dispose();
            Release(sheet);
            return code;
        }
#pragma warning disable CA1031 // The last place that can turn an exception into a sentence.
        catch (Exception exception)
#pragma warning restore CA1031
        {
            steps.Dispose();
            return Failure.Explain(exception, wantsJson, Console.Out, Console.Error, spoken);
        }
    }
}
