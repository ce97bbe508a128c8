using System.CommandLine;
using NodaTime;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Cli.Reports;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Planning;
using Valvewright.Work;
using Valvewright.Work.Search;
using Valvewright.Planning.Sensitivity;

namespace Valvewright.Cli.Commands;

/// <summary>The main job: from a survey to proven programs and the cards to set them from.</summary>
internal static class PlanCommand
{
    public static Job Make()
    {
        Argument<string> site = SiteArguments.Site();
        Option<string?> output = new("--out")
            { Description = "Where plan, proof and cards go. Default: the folder out next to the site file.", HelpName = "folder" };
        Option<LocalDate?> from = SiteArguments.From("First date of the plan; intervals count from it. Default: today at the site.");
        Option<bool> brief = new("--brief")
            { Description = "Print only the first screen: verdict, programs, water, visits, what to do next." };
        Option<bool> full = new("--full")
            { Description = "Also print where each assumption applies and its source, the goals and bounds, the comparison by zone, and " +
                "the next waterings." };
        SeasonArguments season = new(fewest: 0);
        FoundArguments found = new();
        Job job = new(
            "plan",
            "Plan programs and visits for a site, prove them on other years, and write the cards.",
            "valvewright plan demo/quarry-hill",
            "valvewright plan demo/quarry-hill --from 2026-04-01 --out my-plan --json",
            "valvewright plan demo/quarry-hill --from-reading gate.txt --from-reading terrace.txt --changes 2",
            "valvewright plan demo/quarry-hill --from-plan demo/quarry-hill/out/former-plan.json --changes 0");
        job.Arguments.Add(site);
        job.Options.Add(output);
        job.Options.Add(from);
        job.Options.Add(brief);
        job.Options.Add(full);
        season.AddTo(job, all: false);
        found.AddTo(job);
        return job.Does((parse, sheet, cancel) => found.AreIn(parse)
            ? found.Run(parse, parse.GetValue(site)!, parse.GetValue(output), parse.GetValue(from), season, sheet, cancel)
            : Run(parse.GetValue(site)!, parse.GetValue(output), parse.GetValue(from), season.Visits(parse), year =>
                season.ReadFew(parse, year),
                parse.GetValue(full) ? Extent.Full : parse.GetValue(brief) ? Extent.Brief : Extent.Usual, sheet, cancel));
    }

    private static int Run(string path, string? folder, LocalDate? givenFrom, int visits, Func<int, SeasonOptions> wishes, Extent extent,
        Sheet sheet, CancellationToken cancel)
    {
        (SiteFile file, SiteYears years) = SiteFile.ReadWithWeather(path, sheet.Progress);
        Site site = years.Site;
        LocalDate from = givenFrom ?? file.Today;
        SeasonOptions options = wishes(from.Year);
        sheet.Progress.Step("Calculating needs");
        ListOf<ZoneNeed> needs = years.Needs();
        SitePlan made = SitePlan.Of(
            new PlanRequest(years, from, visits == 0 ? null : options, HasCurve: false), (step, _) => sheet.Progress.Step(step), cancel);
        PlanResult result = made.Search!;
        PlanPages.Title(sheet, file);
        if (made.Plan is not { } plan)
        {
            PlanPages.Inputs(sheet, years, extent == Extent.Full);
            PlanPages.Needs(sheet, site, needs);
            ResultPages.Obstacles(sheet, result);
            sheet.Answer(Answer([]));
            return ExitCode.AnswerIsNo;
        }

        sheet.Progress.Step("Writing the cards");
        WholeFiles files = PlanFolder.Of(folder ?? file.OutputFolder, made, sheet.Language);
        ResultPages.Summary(sheet, site, plan, made.Proof!, files);
        if (extent != Extent.Brief)
        {
            Rest(sheet, made, needs, files, extent == Extent.Full);
        }

        sheet.Answer(Answer(files.Paths.ToListOf()));
        files.Write();
        return made.Proof!.Verdict.Passed ? ExitCode.Done : ExitCode.AnswerIsNo;

        PlanAnswer Answer(ListOf<string> written) => new(
            site.Name, from, years.Split.Explanation, site.Assumptions, needs, made.Plan, made.Season, made.Rounds, result.Report,
                result.Obstacles, made.Proof, written);
    }

    /// <summary>All that follows the first screen, always in this order.</summary>
    private static void Rest(Sheet sheet, SitePlan made, ListOf<ZoneNeed> needs, WholeFiles files, bool all)
    {
        Site site = made.Years.Site;
        PlanPages.Programs(sheet, site, made.Plan!);
        PlanPages.ZoneNotes(sheet, site, made.Plan!);
        if (made.Season is { } season)
        {
            SeasonPages.Write(sheet, site, made.Plan!, season);
        }

        ProofPages.Write(sheet, site, made.Proof!, all);
        PlanPages.Needs(sheet, site, needs);
        PlanPages.Inputs(sheet, made.Years, all);
        if (all)
        {
            sheet.Progress.Step("Finding what to measure first");
            PlanPages.MeasureFirst(sheet, site, WaterSensitivity.Of(site, made.Plan!, made.Years.Training));
        }

        sheet.Heading("Plan quality");
        ResultPages.Quality(sheet, site, made.Search!.Report, all);
        ResultPages.Files(sheet, files);
    }

    /// <summary>How much is printed.</summary>
    private enum Extent
    {
        /// <summary>The first screen and the tables behind it.</summary>
        Usual,

        /// <summary>The first screen.</summary>
        Brief,

        /// <summary>All there is.</summary>
        Full,
    }

    /// <summary>What <c>--json</c> prints.</summary>
    /// <param name="Site">The site's name.</param>
    /// <param name="From">First date on which the plan is effective.</param>
    /// <param name="Years">Which years served for what.</param>
    /// <param name="Assumptions">What was assumed because the survey does not say.</param>
    /// <param name="Needs">What each zone needs.</param>
    /// <param name="Plan">The plan; null when there is none.</param>
    /// <param name="Season">The visits of the year; null without a plan, or without a season.</param>
    /// <param name="Rounds">Programs and season, round by round.</param>
    /// <param name="Report">How good it is and how far that is proven.</param>
    /// <param name="Obstacles">What is in the way.</param>
    /// <param name="Proof">The proof; null without a plan.</param>
    /// <param name="Files">What was written.</param>
    private sealed record PlanAnswer(
        string Site, LocalDate From, string Years, ListOf<Assumption> Assumptions, ListOf<ZoneNeed> Needs, Plan? Plan, SeasonPlan? Season,
            ListOf<SeasonRound> Rounds, PlanReport Report,
        ListOf<Obstacle> Obstacles, ProofReport? Proof, ListOf<string> Files);
}
