using System.CommandLine;
using System.Text;
using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Engine.Faults;
using Valvewright.Engine.Values;
using Valvewright.Files.Faults;
using Valvewright.Files.Problems;

namespace Valvewright.Cli.Commands.Trace;

/// <summary>Finds the cause of a fault, one step at a time.</summary>
internal static class TraceCommand
{
    private const long LargestBytes = 1024 * 1024;

    public static Job Make()
    {
        Argument<string?> site = new("site")
            { Description = "The site file, or the folder with its site.yaml.", Arity = ArgumentArity.ZeroOrOne };
        Job job = new(
            "trace", "Find the cause of a fault: asks for the step that saves the most minutes.",
            "valvewright trace demo/quarry-hill --controller Gate --complaint \"station 2 never comes on\"",
            "valvewright trace demo/quarry-hill --controller Gate --complaint \"never on\" --station 2 --answer \"by hand: nothing\" " +
                "--answer \"click: none\"",
            "valvewright trace demo/quarry-hill --controller Gate --complaint \"nothing comes on\" --phone --state call.json");
        job.Arguments.Add(site);
        foreach (Option option in TraceArguments.Options)
        {
            job.Options.Add(option);
        }

        return job.Does((parse, sheet, _) => Run(parse.GetValue(site), TraceArguments.Of(parse, sheet.Language), sheet));
    }

    private static int Run(string? path, TraceArguments given, Sheet sheet)
    {
        if (given.PrintModel)
        {
            sheet.Answer(TraceWork.ReadModel(given.Model));
            sheet.Verbatim(given.Model is { } own ? File.ReadAllText(own) : FaultModelFiles.Text);
            return ExitCode.Done;
        }

        TraceWork work = new(path ?? throw new ProblemsException(
            new Problem("the site", 0, 0, "nothing", "a site file or its folder", null, "no site is named")), given);
        foreach ((string text, string source, int line) in Given(given))
        {
            work.Change(work.Trace.With(work.Answer(text, source, line)));
        }

        if (!given.IsScripted && !sheet.IsJson)
        {
            return new TraceTalk(work, Console.In, Console.Out, sheet.Progress, given.State).Hold() ? ExitCode.Done : ExitCode.AnswerIsNo;
        }

        work.Change(work.Trace);
        TraceView view = work.View;
        sheet.Answer(new TraceReply(work.Trace, view, work.NextRun, work.Model.Source));
        TracePages.Head(sheet, work);
        TracePages.Answers(sheet, work);
        TracePages.Causes(sheet, work, view);
        if (view.Next is { } next)
        {
            TracePages.Next(sheet, work, next);
        }
        else
        {
            TracePages.End(sheet, work, view);
        }

        return view.End is { Causes.Count: > 0 } ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    private static IEnumerable<(string Text, string Source, int Line)> Given(TraceArguments given)
    {
        if (given.AnswersFile is { } file)
        {
            if (file != "-" && new FileInfo(file) is not { Exists: true, Length: <= LargestBytes })
            {
                throw new ProblemsException(
                    new Problem(file, 0, 0, "no such file, or one too large", "a file of answers, one per line, for example: click: none",
                        null,
                        "there are no answers here"));
            }

            string[] lines = (file == "-" ? Console.In.ReadToEnd() : File.ReadAllText(file, Encoding.UTF8)).Split('\n');
            for (int i = 0; i < lines.Length; i++)
            {
                if (lines[i].Trim() is { Length: > 0 } line && line[0] != '#')
                {
                    yield return (line, file == "-" ? CheckArguments.Input : file, i + 1);
                }
            }
        }

        foreach (string answer in given.Answers)
        {
            yield return (answer, "--answer", 0);
        }
    }

    /// <summary>What <c>--json</c> prints.</summary>
    /// <param name="Trace">The trace, as it is kept.</param>
    /// <param name="View">Where it stands.</param>
    /// <param name="Verify">The next run to verify by; null where there is no plan.</param>
    /// <param name="Source">Where the model's figures come from.</param>
    private sealed record TraceReply(TraceCase Trace, TraceView View, DueRun? Verify, string Source);
}
