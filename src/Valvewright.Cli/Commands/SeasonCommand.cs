using System.CommandLine;
using NodaTime;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Cli.Reports;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Plans;
using Valvewright.Files.Problems;
using Valvewright.Planning;
using Valvewright.Work;
using Valvewright.Work.Search;

namespace Valvewright.Cli.Commands;

/// <summary>The visits of a year: on which dates, and to which percent each controller is set.</summary>
internal static class SeasonCommand
{
    public static Job Make()
    {
        Argument<string> site = SiteArguments.Site();
        Option<string?> plan = new("--plan")
            { Description =
                "The saved plan. Default: out/plan.json next to the site file; without one, programs and visits are planned together.",
                    HelpName = "file" };
        Option<bool> together = new("--together") { Description = "Choose the programs again with the visits; ignore a saved plan." };
        Option<string?> output = new("--out")
            { Description = "Where the plan, its proof and its cards go. Default: the folder out next to the site file.",
                HelpName = "folder" };
        Option<LocalDate?> from = SiteArguments.From("First date of a new plan; a saved plan keeps its own.");
        Option<bool> curve = new("--curve") { Description = "Compare 1 to 12 visits per year." };
        SeasonArguments wishes = new(fewest: 1);
        SeasonAdvice advice = new();
        Job job = new(
            "season",
            "Find the best visit dates and the percent adjust to set at each.",
            "valvewright season demo/quarry-hill --visits 4 --curve",
            "valvewright season demo/quarry-hill --only-on mon,thu --not-in 8-1..8-31 --agreed 5-12",
            "valvewright season demo/quarry-hill --today 2026-06-14 --so-far this-year.csv --percent Gate=80");
        job.Arguments.Add(site);
        wishes.AddTo(job, all: true);
        foreach (Option option in new Option[] { plan, together, output, from, curve })
        {
            job.Options.Add(option);
        }

        advice.AddTo(job);
        return job.Does((parse, sheet, cancel) =>
        {
            (SiteFile file, SiteYears years) = SiteFile.ReadWithWeather(parse.GetValue(site)!, sheet.Progress);
            SavedPlan? saved = parse.GetValue(together) ? null : Saved(file, parse.GetValue(plan), sheet);
            LocalDate first = saved?.From ?? parse.GetValue(from) ?? file.Today;
            SeasonOptions options = wishes.Read(parse, years.Site, first.Year);
            if (advice.IsAskedFor(parse))
            {
                return advice.Run(parse, years, saved ?? throw new ProblemsException(Unsaved(file)), sheet);
            }

            VisitRequest request = new(years, first, saved?.Plan, options, parse.GetValue(curve));
            return Run(request, parse.GetValue(output) ?? file.OutputFolder, sheet, cancel);
        });
    }

    /// <summary>The plan that was named, or the one next to the site file; null where that is none, or for a survey that has changed
    /// since.</summary>
    private static SavedPlan? Saved(SiteFile file, string? given, Sheet sheet)
    {
        if (given is null && !File.Exists(file.UsualPlan))
        {
            return null;
        }

        SavedPlan saved = file.ReadPlan(given);
        if (given is not null)
        {
            file.RequireKeyable(saved, given);
        }

        if (!saved.IsFor(file.Site) && given is not null)
        {
            sheet.Say("The survey changed after this plan was made. Visits are planned for the current survey.");
        }

        return saved.IsFor(file.Site) || given is not null ? saved : null;
    }

    private static Problem Unsaved(SiteFile file) =>
        new(file.UsualPlan, 0, 0, "no plan for this survey", "a plan that 'valvewright plan' or 'valvewright season' has written", null,
            "advice rests on a saved plan");

    private static int Run(VisitRequest request, string folder, Sheet sheet, CancellationToken cancel)
    {
        SitePlan made = SitePlan.Of(request, (step, _) => sheet.Progress.Step(step), cancel);
        if (made.Plan is null)
        {
            ResultPages.Obstacles(sheet, made.Search!);
            sheet.Answer(Answer([]));
            return ExitCode.AnswerIsNo;
        }

        sheet.Progress.Step("Writing the cards");
        WholeFiles files = PlanFolder.Of(folder, made, sheet.Language);
        Tell(sheet, made, files);
        sheet.Answer(Answer(files.Paths.ToListOf()));
        files.Write();
        return made.Proof!.Verdict.Passed ? ExitCode.Done : ExitCode.AnswerIsNo;

        SeasonAnswer Answer(ListOf<string> written) =>
            new(request.Years.Site.Name, request.From, request.Years.Split.Explanation, made.Plan, made.Season, made.Curve, made.Rounds,
                made.Proof, written);
    }

    private static void Tell(Sheet sheet, SitePlan made, WholeFiles files)
    {
        Site site = made.Years.Site;
        sheet.Heading(site.Name);
        sheet.Say(made.Years.Split.Explanation);
        SeasonPages.Write(sheet, site, made.Plan!, made.Season!);
        if (made.Search is not null)
        {
            PlanPages.Programs(sheet, site, made.Plan!);
            PlanPages.ZoneNotes(sheet, site, made.Plan!);
        }

        if (made.Curve is { } curve)
        {
            SeasonPages.Curve(sheet, site, curve);
        }

        ProofPages.Season(sheet, site, made.Proof!);
        SeasonPages.Adequacy(sheet, site, made.Proof!);
        ResultPages.Files(sheet, files);
    }

    /// <summary>What <c>--json</c> prints.</summary>
    /// <param name="Site">The site's name.</param>
    /// <param name="From">First date on which the plan is in force.</param>
    /// <param name="Years">Which years served for what.</param>
    /// <param name="Plan">The plan with its visits; null when there is none.</param>
    /// <param name="Season">The season.</param>
    /// <param name="Curve">What a visit is worth; null unless asked for.</param>
    /// <param name="Rounds">Programs and season, round by round, where the programs were chosen with the season.</param>
    /// <param name="Proof">The proof on years not seen.</param>
    /// <param name="Files">What was written.</param>
    private sealed record SeasonAnswer(string Site, LocalDate From, string Years, Plan? Plan, SeasonPlan? Season, VisitCurve? Curve,
        ListOf<SeasonRound> Rounds, ProofReport? Proof, ListOf<string> Files);
}
