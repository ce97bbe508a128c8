using Valvewright.Cli.Output;
using Valvewright.Engine.Faults;
using Valvewright.Files.Faults;

namespace Valvewright.Cli.Commands.Trace;

/// <summary>Where a trace stands, as text.</summary>
internal static class TracePages
{
    private const int MostCauses = 5;

    public static void Head(Sheet sheet, TraceWork work)
    {
        TraceSaid said = work.Said;
        string station = work.Trace.Station is { } n ? $", {said.Fill("station", ("n", n))}" : "";
        sheet.Heading(
            $"{said.Fill("heading", ("site", work.Site.Name), ("controller", work.Controller.Name))}{station}: {said.Complaint(work.Trace.Complaint)}");
        sheet.Say(said["rule"] + (work.Learned > 0 ? " " + said.Fill("learned", ("n", work.Learned), ("prior", work.Model.PriorCases))
            : ""));
    }

    public static void Answers(Sheet sheet, TraceWork work)
    {
        if (work.Trace.Answers.Count == 0)
        {
            return;
        }

        sheet.Heading(work.Said["answers"]);
        foreach (TraceAnswer answer in work.Trace.Answers)
        {
            sheet.Say($"{work.Said.Step(answer.Step)}: {work.Said.Answer(answer)}", 2);
        }
    }

    /// <summary>What speaks for and against each cause, and answers that do not fit.</summary>
    public static void Causes(Sheet sheet, TraceWork work, TraceView view)
    {
        TraceSaid said = work.Said;
        foreach (Misfit misfit in view.Misfits)
        {
            TraceAnswer answer = work.Trace.Answers.First(a => a.Step == misfit.Step);
            sheet.Say();
            sheet.Say(said.Fill(
                "misfit", ("step", said.Step(misfit.Step)), ("answer", said.Answer(answer)), ("share", said.Share(misfit.Share))));
        }

        sheet.Heading(said["causes"]);
        foreach (CauseShare cause in view.Causes.Take(MostCauses))
        {
            sheet.Say((string)$"{said.Share(cause.Share),-12} {said.Cause(cause.Name)}", 13);
            Speaks("for", cause.For);
            Speaks("against", cause.Against);
        }

        sheet.Say((string)$"{said.Share(view.SomethingElse),-12} {said["else"]}", 13);

        void Speaks(string side, IReadOnlyList<string> steps)
        {
            if (steps.Count > 0)
            {
                sheet.Say((string)$"{"",-12} {said.Fill(side, ("steps", string.Join(", ", steps.Select(said.Step))))}", 13);
            }
        }
    }

    public static void Next(Sheet sheet, TraceWork work, NextAsk next)
    {
        TraceSaid said = work.Said;
        TraceStep step = work.Model.StepNamed(next.Step)!;
        sheet.Heading(said["next"]);
        Cautions(sheet, work, TraceCautions.Of(work.Model, work.Trace.Facts, step));
        sheet.Say(step.Question.In(said.Spoken));
        string needs = step.Needs.Count > 0 ? " " + said.Fill("next.needs", ("needs", said.Needs(step.Needs))) : "";
        sheet.Say(said.Fill("next.cost", ("minutes", TraceSaid.Minutes(next.Minutes)), ("place", said.Place(step))) + needs);
        if (next.Leads.Select(l => l.Cause).Distinct().Count() > 1)
        {
            sheet.Say(said.Fill("next.apart", ("causes", string.Join("; ", next.Leads.Select(l => said.Cause(l.Cause)).Distinct()))));
        }

        if (step.Measured is not null)
        {
            sheet.Say(said.Expected(step, work.Trace.Facts));
            return;
        }

        for (int k = 0; k < step.Answers.Count; k++)
        {
            sheet.Say(
                $"  {k + 1}  {step.Answers[k].Text.In(said.Spoken)} [{step.Answers[k].Name}], {said.Fill("leads", ("cause", said.Cause(next.Leads[k].Cause)))}", 5);
        }
    }

    public static void End(Sheet sheet, TraceWork work, TraceView view)
    {
        TraceSaid said = work.Said;
        TraceEnd end = view.End!;
        sheet.Heading(said.Fill($"end.{end.Kind}", ("cause", end.Causes.Count > 0 ? said.Cause(end.Causes[0]) : "")));
        if (end.Kind == EndKind.NotFound)
        {
            sheet.Say(said["end.NotFound.why"]);
        }
        else
        {
            sheet.Say(said.Fill(
                "end.share", ("share", said.Share(view.Causes[0].Share)), ("minutes", TraceSaid.Minutes(view.MinutesSpent))));
        }

        foreach (string name in end.Causes)
        {
            Cause cause = work.Model.CauseNamed(name)!;
            if (name != end.Causes[0])
            {
                sheet.Say();
                sheet.Say(said.Fill("end.also", ("cause", said.Cause(name))));
            }

            sheet.Heading(said["end.do"]);
            Cautions(sheet, work, TraceCautions.Of(work.Model, work.Trace.Facts, cause));
            sheet.Say(cause.Repair.In(said.Spoken));
            if (cause.Parts != BothTongues.None)
            {
                sheet.Say(said.Fill("end.parts", ("parts", cause.Parts.In(said.Spoken))));
            }
        }

        if (view.OnSite.Count > 0)
        {
            string steps = string.Join("; ", view.OnSite.Select(said.Step));
            string needs = said.Needs(view.OnSite.SelectMany(s => work.Model.StepNamed(s)!.Needs));
            sheet.Say();
            sheet.Say(needs.Length > 0 ? said.Fill("end.visit", ("steps", steps), ("needs", needs))
                : said.Fill("end.visit.nothing", ("steps", steps)));
        }

        if (end.Kind != EndKind.NotFound)
        {
            sheet.Heading(said["end.verify"]);
            if (work.NextRun is { } run)
            {
                sheet.Say(said["end.byhand"]);
                sheet.Say(said.Verify(run, work.Now));
            }
            else
            {
                sheet.Say(said["end.noplan"]);
            }
        }

        if (end.RuledOut.Count > 0)
        {
            sheet.Say();
            sheet.Say(said.Fill("end.ruledOut", ("causes", string.Join("; ", end.RuledOut.Select(said.Cause)))));
        }
    }

    private static void Cautions(Sheet sheet, TraceWork work, IReadOnlyList<NamedThing> hazards)
    {
        foreach (NamedThing hazard in hazards)
        {
            sheet.Say(work.Said.Fill("caution", ("text", hazard.Text.In(work.Said.Spoken))), 2);
        }
    }
}
