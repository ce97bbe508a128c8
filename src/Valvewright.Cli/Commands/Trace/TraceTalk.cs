using Valvewright.Cli.Output;
using Valvewright.Engine.Faults;
using Valvewright.Engine.Values;
using Valvewright.Files.Faults;

namespace Valvewright.Cli.Commands.Trace;

/// <summary>A trace as a conversation: a question, an answer, the next question.</summary>
internal sealed class TraceTalk(TraceWork work, TextReader input, TextWriter output, Progress progress, string? keptIn)
{
    private readonly TraceSaid said = work.Said;

    /// <summary>Talks until the end, until there is no more input, or until it is put aside.</summary>
    /// <returns>Whether a cause was found.</returns>
    public bool Hold()
    {
        Print(sheet =>
        {
            TracePages.Head(sheet, work);
            TracePages.Answers(sheet, work);
        });
        while (true)
        {
            TraceView view = work.View;
            if (view.Next is null)
            {
                Print(sheet => TracePages.End(sheet, work, view));
                if (view.End!.Causes is not [{ } cause, ..] || !AskCured(cause))
                {
                    return view.End.Causes.Count > 0;
                }

                continue;
            }

            if (view.Misfits.Count > 0)
            {
                Print(sheet => TracePages.Causes(sheet, work, view));
            }

            Print(sheet =>
            {
                TracePages.Next(sheet, work, view.Next);
                sheet.Say(said["keys"]);
            });
            if (!Ask(view))
            {
                Print(sheet =>
                {
                    TracePages.Causes(sheet, work, view);
                    sheet.Say();
                    sheet.Say(keptIn is null ? said["stopped"] : $"{said["stopped"]} {said.Fill("kept", ("file", keptIn))}");
                });
                work.Change(work.Trace);
                return false;
            }
        }
    }

    /// <summary>Asks until an answer changes the trace; false where it is put aside.</summary>
    private bool Ask(TraceView view)
    {
        TraceStep step = work.Model.StepNamed(view.Next!.Step)!;
        while (Line() is { } line)
        {
            string[] words = line.Split(' ', 2, StringSplitOptions.TrimEntries);
            switch (words[0].ToLowerInvariant())
            {
                case "":
                    continue;
                case "stop" or "quit" or "parar":
                    return false;
                case "why" or "porque" or "porqué":
                    Print(sheet => TracePages.Causes(sheet, work, view));
                    continue;
                case "change" or "cambiar" when words.Length == 2
                    && work.Trace.Answers.FirstOrDefault(a => a.Step == words[1] || said.Step(a.Step) == words[1]) is { } earlier:
                    work.Change(work.Trace.Forget(earlier.Step));
                    return true;
                case "without" or "sin" when words.Length == 2 && work.Model.Needs.Any(n => n.Name == words[1]):
                    work.Change(work.Trace with { Without = work.Trace.Without.Add(words[1]) });
                    return true;
            }

            if (work.Answer(step, line) is { } answer)
            {
                work.Change(work.Trace.With(answer));
                return true;
            }

            string[] known = [.. step.Answers.Select(a => a.Name), "change", "why", "stop"];
            string nearest = NearestWord.To(line, known) is { } word ? " " + said.Fill("nearest", ("word", word)) : "";
            Print(sheet => sheet.Say(said.Fill("not.understood", ("text", Printable.Of(line))) + nearest));
        }

        return false;
    }

    /// <summary>Asks whether the repair did it; true where the trace goes on.</summary>
    private bool AskCured(string cause)
    {
        Print(sheet =>
        {
            sheet.Say();
            sheet.Say(said["end.cured"]);
        });
        string line = Line()?.ToLowerInvariant() ?? "";
        if (line == said["yes"] || line is "yes" or "si")
        {
            work.Change(work.Trace with { Confirmed = cause });
            Print(sheet => sheet.Say(said.Fill("end.confirmed", ("cause", said.Cause(cause)))));
            return false;
        }

        if (line == said["no"] && !work.Trace.Repaired.Contains(cause))
        {
            work.Change(work.Trace with { Repaired = work.Trace.Repaired.Add(cause) });
            Print(sheet => sheet.Say(said.Fill("end.stays", ("cause", said.Cause(cause)))));
            return true;
        }

        work.Change(work.Trace);
        return false;
    }

    private string? Line()
    {
        output.Write("> ");
        output.Flush();
        return input.ReadLine()?.Trim();
    }

    private void Print(Action<Sheet> write)
    {
        Sheet sheet = new(false, progress);
        write(sheet);
        output.WriteLine();
        sheet.Release(output);
    }
}
