using System.CommandLine;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Cli.Reports;
using Valvewright.Engine.Proof;
using Valvewright.Files.Plans;
using Valvewright.Work;

namespace Valvewright.Cli.Commands;

/// <summary>Replays a saved plan on weather it has not seen.</summary>
internal static class ProveCommand
{
    public static Job Make()
    {
        Argument<string> site = SiteArguments.Site();
        Option<string?> plan = new("--plan") { Description = "The saved plan; out/plan.json beside the site file when not given.", HelpName = "file" };
        Option<LocalDate?> from = SiteArguments.From("First date of the calendar on which rules are checked, and of the next waterings; the date the plan is in force from when not given.");
        Job job = new("prove", "Replays a saved plan on weather it has not seen, and judges it.", "valvewright prove demo/quarry-hill", "valvewright prove demo/quarry-hill --plan out/plan.json --json");
        job.Arguments.Add(site);
        job.Options.Add(plan);
        job.Options.Add(from);
        return job.Does((parse, sheet, cancel) => Run(parse.GetValue(site)!, parse.GetValue(plan), parse.GetValue(from), sheet, cancel));
    }

    private static int Run(string path, string? planFile, LocalDate? from, Sheet sheet, CancellationToken cancel)
    {
        (SiteFile file, SiteYears years) = SiteFile.ReadWithWeather(path, sheet.Progress);
        SavedPlan saved = file.ReadPlan(planFile);
        cancel.ThrowIfCancellationRequested();
        sheet.Progress.Step("Proving");
        ProofReport report = PlanProof.Of(new ProofRequest(years, saved.Plan, from ?? saved.From));
        bool isStale = !saved.IsFor(years.Site);
        sheet.Answer(new ProveAnswer(isStale, years.Split.Explanation, report));
        sheet.Heading(years.Site.Name);
        if (isStale)
        {
            sheet.Say("The survey has changed since this plan was made. It is proven against the survey as it stands now.");
        }

        sheet.Say(years.Split.Explanation);
        PlanPages.Programs(sheet, years.Site, saved.Plan);
        ProofPages.Write(sheet, years.Site, report);
        return report.Verdict.Passed ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    /// <summary>What <c>--json</c> prints.</summary>
    /// <param name="SurveyHasChanged">Whether the survey has changed since the plan was made.</param>
    /// <param name="Years">Which years served for what.</param>
    /// <param name="Proof">The proof.</param>
    private sealed record ProveAnswer(bool SurveyHasChanged, string Years, ProofReport Proof);
}
