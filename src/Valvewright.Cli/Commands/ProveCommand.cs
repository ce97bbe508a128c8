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
        Option<string?> plan = new("--plan")
            { Description = "The saved plan. Default: out/plan.json next to the site file.", HelpName = "file" };
        Option<LocalDate?> from = SiteArguments.From("First date of the calendar for rules and next waterings. Default: the plan's own.");
        Option<string?> other = new("--compare")
        {
            Description = "Another saved plan to compare with, for example former-plan.json.",
            HelpName = "file",
        };
        GivenPrograms given = new();
        Job job = new(
            "prove", "Replay a saved plan, or programs read off controllers, on weather not used for planning.",
            "valvewright prove demo/quarry-hill",
            "valvewright prove demo/quarry-hill --plan out/plan.json --json",
            "valvewright prove demo/quarry-hill --compare demo/quarry-hill/out/former-plan.json",
            "valvewright prove demo/quarry-hill --from-reading gate.txt --from-reading terrace.txt");
        job.Arguments.Add(site);
        job.Options.Add(plan);
        job.Options.Add(from);
        job.Options.Add(given.Option);
        job.Options.Add(other);
        return job.Does((parse, sheet, cancel) =>
            Run(parse, given, parse.GetValue(site)!, parse.GetValue(plan), parse.GetValue(other), parse.GetValue(from), sheet, cancel));
    }

    private static int Run(ParseResult parse, GivenPrograms given, string path, string? planFile, string? otherFile, LocalDate? from,
        Sheet sheet, CancellationToken cancel)
    {
        (SiteFile file, SiteYears years) = SiteFile.ReadWithWeather(path, sheet.Progress);
        StandingPrograms? standing = given.AreIn(parse) ? given.Read(parse, file, planFile) : null;
        SavedPlan saved = standing is null ? file.ReadPlan(planFile) : SavedPlan.Of(years.Site, standing.Plan, from ?? file.Today);
        SavedPlan? other = otherFile is null ? null : file.ReadPlan(otherFile);
        cancel.ThrowIfCancellationRequested();
        sheet.Progress.Step("Proving");
        ProofReport report = PlanProof.Of(new ProofRequest(years, saved.Plan, from ?? saved.From) { Other = other?.Plan });
        bool isStale = !saved.IsFor(years.Site);
        sheet.Answer(new ProveAnswer(isStale, years.Split.Explanation, report));
        sheet.Heading(years.Site.Name);
        if (isStale)
        {
            sheet.Say("The survey changed after this plan was made. It is proven against the current survey.");
        }

        if (standing is not null)
        {
            GivenPrograms.Say(sheet, standing);
        }

        sheet.Say(years.Split.Explanation);
        PlanPages.Programs(sheet, years.Site, saved.Plan);
        ProofPages.Write(sheet, years.Site, report, all: true);
        if (other is not null)
        {
            ChangePages.Differences(sheet, years.Site, saved.Plan, other.Plan, from ?? saved.From);
        }

        return report.Verdict.Passed ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    /// <summary>What <c>--json</c> prints.</summary>
    /// <param name="SurveyHasChanged">Whether the survey has changed since the plan was made.</param>
    /// <param name="Years">Which years served for what.</param>
    /// <param name="Proof">The proof.</param>
    private sealed record ProveAnswer(bool SurveyHasChanged, string Years, ProofReport Proof);
}
