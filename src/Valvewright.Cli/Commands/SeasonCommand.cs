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
using Valvewright.Files.Problems;
using Valvewright.Files.Texts;
using Valvewright.Planning;

namespace Valvewright.Cli.Commands;

/// <summary>The visits of a year: on which dates, and to which percent each controller is set.</summary>
internal static class SeasonCommand
{
    public static Job Make()
    {
        Argument<string> site = SiteArguments.Site();
        Option<string?> plan = new("--plan") { Description = "The saved plan; out/plan.json beside the site file when not given. Where there is none, programs and season are planned together.", HelpName = "file" };
        Option<bool> together = new("--together") { Description = "Choose the programs anew, together with the season; a saved plan is left aside." };
        Option<string?> output = new("--out") { Description = "Where the plan with its visits, its proof and its cards go; the folder out beside the site file when not given.", HelpName = "folder" };
        Option<LocalDate?> from = SiteArguments.From("First date on which a new plan is in force; a saved plan keeps its own.");
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
        foreach (Option option in new Option[] { plan, together, output, from, curve, language })
        {
            job.Options.Add(option);
        }

        advice.AddTo(job);
        return job.Does((parse, sheet, cancel) =>
        {
            SiteInputs inputs = SiteInputs.Read(parse.GetValue(site)!, sheet.Progress);
            SavedPlan? saved = parse.GetValue(together) ? null : Saved(inputs, parse.GetValue(plan), sheet);
            LocalDate first = saved?.From ?? parse.GetValue(from) ?? SiteInputs.Today(inputs.Site);
            SeasonOptions options = wishes.Read(parse, inputs.Site, first.Year);
            if (advice.IsAskedFor(parse))
            {
                return advice.Run(parse, inputs, saved ?? throw new ProblemsException(Unsaved(inputs)), options.StressWeightMm, sheet);
            }

            Wish wish = new(first, options, parse.GetValue(curve), parse.GetValue(output) ?? OutputFolder.Beside(inputs.File), parse.GetValue(language) == "es" ? Language.Spanish : Language.English);
            return Run(inputs, saved, wish, sheet, cancel);
        });
    }

    /// <summary>The plan that was named, or the one beside the site file; null where that is none, or for a survey that has changed since.</summary>
    private static SavedPlan? Saved(SiteInputs inputs, string? given, Sheet sheet)
    {
        string usual = Path.Combine(OutputFolder.Beside(inputs.File), PlanFiles.UsualName);
        if (given is null && !File.Exists(usual))
        {
            return null;
        }

        PlanReading reading = PlanFiles.Read(given ?? usual);
        SavedPlan saved = reading.Saved ?? throw new ProblemsException(reading.Problems);
        if (!saved.IsFor(inputs.Site) && given is not null)
        {
            sheet.Say("The survey has changed since this plan was made. Its season is planned for the survey as it stands now.");
        }

        return saved.IsFor(inputs.Site) || given is not null ? saved : null;
    }

    private static Problem Unsaved(SiteInputs inputs) =>
        new(Path.Combine(OutputFolder.Beside(inputs.File), PlanFiles.UsualName), 0, 0, "no plan for this survey", "a plan that 'valvewright plan' or 'valvewright season' has written", null, "advice rests on a saved plan");

    private static int Run(SiteInputs inputs, SavedPlan? saved, Wish wish, Sheet sheet, CancellationToken cancel)
    {
        PlanAndSeasonResult? both = saved is null ? SeasonMaking.WithPrograms(inputs, wish.From, wish.Options, new PlanSteps(sheet.Progress), cancel) : null;
        if ((saved?.Plan ?? both!.Plan.Plan) is not { } programs)
        {
            ResultPages.Obstacles(sheet, both!.Plan);
            sheet.Answer(new SeasonAnswer(inputs.Site.Name, wish.From, inputs.Split.Explanation, null, null, null, [], null, []));
            return ExitCode.AnswerIsNo;
        }

        sheet.Progress.Step("Planning the season");
        ListOf<SeasonPlan>? seasons = wish.Curve ? SeasonMaking.UpToTwelve(inputs, programs, wish.Options, cancel) : null;
        SeasonMade made = (both?.Season ?? (wish.Options.ProgramChanges || wish.Options.AboveFull ? null : seasons?.FirstOrDefault(s => s.Dates.Count == wish.Options.Visits))) is { } season
            ? SeasonMaking.With(inputs.Site, programs, season)
            : SeasonMaking.Of(inputs, programs, wish.Options);
        cancel.ThrowIfCancellationRequested();
        sheet.Progress.Step("Proving");
        ProofReport proof = Proofs.Replay(inputs.Site, made.Plan, inputs.HeldBack, SeasonProof.Options(inputs, made.Plan, wish.From));
        cancel.ThrowIfCancellationRequested();
        sheet.Progress.Step("Writing the cards");
        WholeFiles files = SeasonOutput.AddTo(PlanOutput.Make(wish.Folder, inputs.Site, made.Plan, wish.From, proof), inputs, made, wish.From, proof, wish.Language);
        VisitCurve? curve = seasons is null ? null : VisitCurve.Of(seasons);
        Tell(sheet, inputs, made, both?.Rounds, curve, proof, files);
        sheet.Answer(new SeasonAnswer(inputs.Site.Name, wish.From, inputs.Split.Explanation, made.Plan, made.Season, curve, both?.Rounds ?? [], proof, files.Paths.ToListOf()));
        files.Write();
        return proof.Verdict.Passed ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    private static void Tell(Sheet sheet, SiteInputs inputs, SeasonMade made, ListOf<SeasonRound>? rounds, VisitCurve? curve, ProofReport proof, WholeFiles files)
    {
        sheet.Heading(inputs.Site.Name);
        sheet.Say(inputs.Split.Explanation);
        SeasonPages.Write(sheet, inputs.Site, made.Plan, made.Season);
        if (rounds is not null)
        {
            PlanPages.Programs(sheet, inputs.Site, made.Plan);
            sheet.Say();
            SeasonPages.Rounds(sheet, inputs.Site, rounds);
        }

        if (curve is not null)
        {
            SeasonPages.Curve(sheet, inputs.Site, curve);
        }

        ProofPages.Season(sheet, inputs.Site, proof);
        SeasonPages.Adequacy(sheet, proof);
        ResultPages.Files(sheet, files);
    }

    /// <summary>What a person asked for.</summary>
    private sealed record Wish(LocalDate From, SeasonOptions Options, bool Curve, string Folder, Language Language);

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
    private sealed record SeasonAnswer(string Site, LocalDate From, string Years, Plan? Plan, SeasonPlan? Season, VisitCurve? Curve, ListOf<SeasonRound> Rounds, ProofReport? Proof, ListOf<string> Files);
}
