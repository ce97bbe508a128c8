using System.CommandLine;
using NodaTime;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Cli.Reports;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Values;
using Valvewright.Files.Plans;
using Valvewright.Files.Texts;
using Valvewright.Planning;

namespace Valvewright.Cli.Commands;

/// <summary>The visits of a year: on which dates, and to which percent each controller is set.</summary>
internal static class SeasonCommand
{
    public static Job Make()
    {
        Argument<string> site = SiteArguments.Site();
        Option<string?> plan = new("--plan") { Description = "The saved plan; out/plan.json beside the site file when not given. Where there is none, one is made first.", HelpName = "file" };
        Option<string?> output = new("--out") { Description = "Where the plan with its visits, its proof and its cards go; the folder out beside the site file when not given.", HelpName = "folder" };
        Option<LocalDate?> from = SiteArguments.From("First date on which a plan that is made first is in force; a saved plan keeps its own.");
        Option<bool> curve = new("--curve") { Description = "Show what a visit is worth: seasons of 1 to 12 visits." };
        Option<string> language = new("--language") { Description = "The language of the owner's page: en or es.", HelpName = "en|es", DefaultValueFactory = _ => "en" };
        language.AcceptOnlyFromAmong("en", "es");
        SeasonArguments wishes = new(fewest: 1);
        SeasonAdvice advice = new();
        Job job = new(
            "season",
            "Finds the dates of a year's visits and the percent to set at each.",
            "valvewright season demo/quarry-hill --visits 4 --curve",
            "valvewright season demo/quarry-hill --only-on mon,thu --not-in 8-1..8-31 --agreed 5-12",
            "valvewright season demo/quarry-hill --today 2026-06-14 --so-far this-year.csv --percent Gate=80");
        job.Arguments.Add(site);
        wishes.AddTo(job, all: true);
        foreach (Option option in new Option[] { plan, output, from, curve, language })
        {
            job.Options.Add(option);
        }

        advice.AddTo(job);
        return job.Does((parse, sheet, cancel) =>
        {
            SiteInputs inputs = SiteInputs.Read(parse.GetValue(site)!, sheet.Progress);
            string folder = parse.GetValue(output) ?? OutputFolder.Beside(inputs.File);
            SavedPlan? saved = Saved(inputs, parse.GetValue(plan), parse.GetValue(from), sheet, cancel);
            if (saved is null)
            {
                return ExitCode.AnswerIsNo;
            }

            SeasonOptions options = wishes.Read(parse, inputs.Site, saved.From.Year);
            return advice.IsAskedFor(parse)
                ? advice.Run(parse, inputs, saved, options.StressWeightMm, sheet)
                : Run(inputs, saved, options, parse.GetValue(curve), folder, parse.GetValue(language) == "es" ? Language.Spanish : Language.English, sheet, cancel);
        });
    }

    /// <summary>The plan that was named, the one beside the site file, or a new one; null when none exists.</summary>
    private static SavedPlan? Saved(SiteInputs inputs, string? given, LocalDate? from, Sheet sheet, CancellationToken cancel)
    {
        string usual = Path.Combine(OutputFolder.Beside(inputs.File), PlanFiles.UsualName);
        if (given is not null || File.Exists(usual))
        {
            PlanReading reading = PlanFiles.Read(given ?? usual);
            SavedPlan saved = reading.Saved ?? throw new ProblemsException(reading.Problems);
            if (saved.IsFor(inputs.Site))
            {
                return saved;
            }

            if (given is not null)
            {
                sheet.Say("The survey has changed since this plan was made. Its season is planned for the survey as it stands now.");
                return saved;
            }
        }

        LocalDate first = from ?? SiteInputs.Today(inputs.Site);
        PlanResult result = Planner.Plan(inputs.Site, inputs.Training, new PlannerOptions { InForceFrom = first }, new PlanSteps(sheet.Progress), cancel);
        if (result.Plan is { } plan)
        {
            return SavedPlan.Of(inputs.Site, plan, first);
        }

        ResultPages.Obstacles(sheet, result);
        sheet.Answer(new SeasonAnswer(inputs.Site.Name, first, inputs.Split.Explanation, null, null, null, null, []));
        return null;
    }

    private static int Run(SiteInputs inputs, SavedPlan saved, SeasonOptions options, bool wantsCurve, string folder, Language language, Sheet sheet, CancellationToken cancel)
    {
        sheet.Progress.Step("Planning the season");
        ListOf<SeasonPlan>? seasons = wantsCurve ? SeasonMaking.UpToTwelve(inputs, saved.Plan, options, cancel) : null;
        SeasonMade made = seasons?.FirstOrDefault(s => s.Dates.Count == options.Visits) is { } season
            ? SeasonMaking.With(inputs.Site, saved.Plan, season)
            : SeasonMaking.Of(inputs, saved.Plan, options);
        cancel.ThrowIfCancellationRequested();
        sheet.Progress.Step("Proving");
        ProofReport proof = Proofs.Replay(inputs.Site, made.Plan, inputs.HeldBack, SeasonProof.Options(inputs, made.Plan, saved.From));
        cancel.ThrowIfCancellationRequested();
        sheet.Progress.Step("Writing the cards");
        WholeFiles files = SeasonOutput.AddTo(PlanOutput.Make(folder, inputs.Site, made.Plan, saved.From, proof), inputs, made, saved.From, proof, language);
        VisitCurve? curve = seasons is null ? null : VisitCurve.Of(seasons);
        Tell(sheet, inputs, made, curve, proof, files);
        sheet.Answer(new SeasonAnswer(inputs.Site.Name, saved.From, inputs.Split.Explanation, made.Plan, made.Season, curve, proof, files.Paths.ToListOf()));
        files.Write();
        return proof.Verdict.Passed ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    private static void Tell(Sheet sheet, SiteInputs inputs, SeasonMade made, VisitCurve? curve, ProofReport proof, WholeFiles files)
    {
        sheet.Heading(inputs.Site.Name);
        sheet.Say(inputs.Split.Explanation);
        SeasonPages.Write(sheet, inputs.Site, made.Plan, made.Season);
        if (curve is not null)
        {
            SeasonPages.Curve(sheet, inputs.Site, curve);
        }

        ProofPages.Season(sheet, inputs.Site, proof);
        SeasonPages.Adequacy(sheet, proof);
        ResultPages.Files(sheet, files);
    }

    /// <summary>What <c>--json</c> prints.</summary>
    /// <param name="Site">The site's name.</param>
    /// <param name="From">First date on which the plan is in force.</param>
    /// <param name="Years">Which years served for what.</param>
    /// <param name="Plan">The plan with its visits; null when there is none.</param>
    /// <param name="Season">The season.</param>
    /// <param name="Curve">What a visit is worth; null unless asked for.</param>
    /// <param name="Proof">The proof on years not seen.</param>
    /// <param name="Files">What was written.</param>
    private sealed record SeasonAnswer(string Site, LocalDate From, string Years, Plan? Plan, SeasonPlan? Season, VisitCurve? Curve, ProofReport? Proof, ListOf<string> Files);
}
