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
using Valvewright.Files.Texts;
using Valvewright.Planning;
using Valvewright.Work;
using Valvewright.Work.Search;

namespace Valvewright.Cli.Commands;

/// <summary>The main job: from a survey to proven programs and the cards to key them in from.</summary>
internal static class PlanCommand
{
    public static Job Make()
    {
        Argument<string> site = SiteArguments.Site();
        Option<string?> output = new("--out") { Description = "Where plan, proof and cards go; the folder out beside the site file when not given.", HelpName = "folder" };
        Option<LocalDate?> from = SiteArguments.From("First date on which the plan is in force; intervals count from it. Today at the site when not given.");
        Option<bool> assumed = new("--assumed") { Description = "Show for each assumption which zones it holds for and what it rests on; --json always does." };
        SeasonArguments season = new(fewest: 0);
        FoundArguments found = new();
        Job job = new(
            "plan",
            "Plans the programs of a site and its visits of a year, proves them on weather not seen, and writes the cards.",
            "valvewright plan demo/quarry-hill",
            "valvewright plan demo/quarry-hill --from 2026-04-01 --out my-plan --json",
            "valvewright plan demo/quarry-hill --from-reading gate.txt --from-reading terrace.txt --changes 2",
            "valvewright plan demo/quarry-hill --from-plan demo/quarry-hill/out/former-plan.json --changes 0");
        job.Arguments.Add(site);
        job.Options.Add(output);
        job.Options.Add(from);
        job.Options.Add(assumed);
        season.AddTo(job, all: false);
        found.AddTo(job);
        return job.Does((parse, sheet, cancel) => found.AreIn(parse)
            ? found.Run(parse, parse.GetValue(site)!, parse.GetValue(output), parse.GetValue(from), season, sheet, cancel)
            : Run(parse.GetValue(site)!, parse.GetValue(output), parse.GetValue(from), season.Visits(parse), year =>
            season.ReadFew(parse, year), parse.GetValue(assumed), sheet, cancel));
    }

    private static int Run(string path, string? folder, LocalDate? givenFrom, int visits, Func<int, SeasonOptions> wishes, bool allAssumed, Sheet sheet, CancellationToken cancel)
    {
        (SiteFile file, SiteYears years) = SiteFile.ReadWithWeather(path, sheet.Progress);
        Site site = years.Site;
        LocalDate from = givenFrom ?? file.Today;
        SeasonOptions options = wishes(from.Year);
        sheet.Progress.Step("Working out what each zone needs");
        ListOf<ZoneNeed> needs = years.Needs();
        SitePlan made = SitePlan.Of(new PlanRequest(years, from, visits == 0 ? null : options, HasCurve: false), (step, _) => sheet.Progress.Step(step), cancel);
        PlanResult result = made.Search!;
        PlanPages.Title(sheet, file);
        if (made.Plan is not { } plan)
        {
            PlanPages.Inputs(sheet, years, allAssumed);
            PlanPages.Needs(sheet, site, needs);
            ResultPages.Obstacles(sheet, result);
            sheet.Answer(Answer([]));
            return ExitCode.AnswerIsNo;
        }

        sheet.Progress.Step("Writing the cards");
        WholeFiles files = PlanFolder.Of(folder ?? file.OutputFolder, made, Language.English);
        ResultPages.InShort(sheet, site, plan, made.Proof!);
        PlanPages.Inputs(sheet, years, allAssumed);
        PlanPages.Needs(sheet, site, needs);
        PlanPages.Programs(sheet, site, plan);
        ResultPages.Quality(sheet, site, result.Report);
        if (made.Season is { } season)
        {
            SeasonPages.Write(sheet, site, plan, season);
        }

        ProofPages.Write(sheet, site, made.Proof!);
        ResultPages.Files(sheet, files);
        sheet.Say();
        ProofPages.Outcome(sheet, made.Proof!);
        sheet.Answer(Answer(files.Paths.ToListOf()));
        files.Write();
        return made.Proof!.Verdict.Passed ? ExitCode.Done : ExitCode.AnswerIsNo;

        PlanAnswer Answer(ListOf<string> written) => new(
            site.Name, from, years.Split.Explanation, site.Assumptions, needs, made.Plan, made.Season, made.Rounds, result.Report, result.Obstacles, made.Proof, written);
    }

    /// <summary>What <c>--json</c> prints.</summary>
    /// <param name="Site">The site's name.</param>
    /// <param name="From">First date on which the plan is in force.</param>
    /// <param name="Years">Which years served for what.</param>
    /// <param name="Assumptions">What was assumed for want of a survey.</param>
    /// <param name="Needs">What each zone wants.</param>
    /// <param name="Plan">The plan; null when there is none.</param>
    /// <param name="Season">The visits of the year; null without a plan, or without a season.</param>
    /// <param name="Rounds">Programs and season, round by round.</param>
    /// <param name="Report">How good it is and how far that is proven.</param>
    /// <param name="Obstacles">What stands in the way.</param>
    /// <param name="Proof">The proof; null without a plan.</param>
    /// <param name="Files">What was written.</param>
    private sealed record PlanAnswer(
        string Site, LocalDate From, string Years, ListOf<Assumption> Assumptions, ListOf<ZoneNeed> Needs, Plan? Plan, SeasonPlan? Season, ListOf<SeasonRound> Rounds, PlanReport Report,
        ListOf<Obstacle> Obstacles, ProofReport? Proof, ListOf<string> Files);
}
