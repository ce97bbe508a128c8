using System.CommandLine;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Cli.Reports;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Files.Plans;
using Valvewright.Files.Problems;
using Valvewright.Planning.Changes;
using Valvewright.Work;
using Valvewright.Work.Search;

namespace Valvewright.Cli.Commands;

/// <summary>Planning that starts from the programs that a site has: what they are, and how many settings may be changed.</summary>
internal sealed class FoundArguments
{
    private const int MostChanges = 999;
    private const string EveryChange = "all";

    private readonly GivenPrograms given = new();
    private readonly Option<string?> plan = new("--from-plan")
    {
        Description = "Start from this saved plan, for example former-plan.json, instead of a reading.",
        HelpName = "file",
    };


    private readonly Option<string?> changes = new("--changes")
    {
        Description = "With --from-reading or --from-plan: the most settings to change, or all; 0 keeps them as they are. "
            + "Default: the fewest that save nine tenths of what all would. "
            + "One start time, run time, day rule or percent is one setting.",
        HelpName = "number",
    };

    /// <summary>Puts the options on a command.</summary>
    public void AddTo(Job job)
    {
        job.Options.Add(given.Option);
        job.Options.Add(plan);
        job.Options.Add(changes);
    }

    /// <summary>Whether planning is to start from what is there.</summary>
    public bool AreIn(ParseResult parse) => given.AreIn(parse) || parse.GetValue(plan) is not null || parse.GetValue(changes) is not null;

    /// <summary>Proves what is there, looks for better, writes what to set.</summary>
    public int Run(ParseResult parse, string path, string? folder, LocalDate? givenFrom, SeasonArguments season, Sheet sheet,
        CancellationToken cancel)
    {
        int? most = ReadChanges(parse);
        if (season.AreIn(parse))
        {
            throw new ProblemsException(new Problem("--visits", 0, 0, "", "--changes now, then 'valvewright season' for the visits", null,
                "visits are found for programs that are settled"));
        }

        (SiteFile file, SiteYears years) = SiteFile.ReadWithWeather(path, sheet.Progress);
        string output = folder ?? file.OutputFolder;
        LocalDate from = givenFrom ?? file.Today;
        StandingPrograms standing = given.AreIn(parse)
            ? given.Read(parse, file, null)
            : parse.GetValue(plan) is { } saved
                ? new StandingPrograms(Keyable(file, saved), [], [])
                : throw new ProblemsException(new Problem("--changes", 0, 0, "", "--from-reading or --from-plan with it", null,
                    "nothing to change was given"));
        RequireEvery(years.Site, standing.Plan, parse.GetValue(plan));
        ProgramsFromFound made = ProgramsFromFound.Of(new ChangeRequest(years, from, standing.Plan, most), (step, _) =>
            sheet.Progress.Step(step), cancel);
        WholeFiles? files = made.Chosen is null ? null : PlanFolder.Of(
            output, years.Site, SavedPlan.Of(years.Site, made.Chosen.Plan, from), made.Proof!,
            made.Chosen.Changes.Count > 0 ? SavedPlan.Of(years.Site, standing.Plan, from) : PlanFolder.Former(output), sheet.Language);
        PlanPages.Title(sheet, file);
        GivenPrograms.Say(sheet, standing);
        ChangePages.Write(sheet, years.Site, standing.Plan, made, from);
        if (files is not null)
        {
            ResultPages.Files(sheet, files);
            sheet.Say();
            ProofPages.Outcome(sheet, made.Proof!);
        }

        sheet.Answer(new ChangeAnswer(
            years.Site.Name, from, standing.NotRead, standing.Assumed.Select(a => a.Text).ToListOf(), standing.Plan, made.FoundProof,
                made.Search, made.Chosen, made.Proof, files is null ? [] : files.Paths.ToListOf()));
        files?.Write();
        return made.Proof?.Verdict.Passed == true ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    private static Plan Keyable(SiteFile file, string name)
    {
        SavedPlan saved = file.ReadPlan(name);
        file.RequireKeyable(saved, name);
        return saved.Plan;
    }

    private static void RequireEvery(Site site, Plan plan, string? file)
    {
        foreach (SiteController controller in site.Controllers.Where(c => plan.Controllers.All(p => p.Controller != c.Name)))
        {
            throw new ProblemsException(new Problem(file ?? "", 0, 0, "no such controller", controller.Name, null,
                "the plan lacks a controller of the survey"));
        }
    }

    private int? ReadChanges(ParseResult parse)
    {
        string? text = parse.GetValue(changes);
        return text switch
        {
            null => null,
            EveryChange => MostChanges,
            _ when int.TryParse(text, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture,
                out int value) && value <= MostChanges => value,
            _ => throw new ProblemsException(new Problem("--changes", 0, 0, text, $"a number from 0 to {MostChanges}, or {EveryChange}",
                null, "not a number of changes")),
        };
    }

    /// <summary>What <c>--json</c> prints.</summary>
    /// <param name="Site">The site's name.</param>
    /// <param name="From">First date on which the result is in force.</param>
    /// <param name="NotRead">Controllers whose programs come from the saved plan.</param>
    /// <param name="Assumed">What was taken as so because the readings do not say.</param>
    /// <param name="Found">The programs found.</param>
    /// <param name="FoundProof">Their proof.</param>
    /// <param name="Search">What each further change saves; null where none was asked for.</param>
    /// <param name="Chosen">What to set; null where nothing within the changes keeps every rule.</param>
    /// <param name="Proof">Its proof.</param>
    /// <param name="Files">What was written.</param>
    private sealed record ChangeAnswer(
        string Site, LocalDate From, ListOf<string> NotRead, ListOf<string> Assumed, Plan Found, ProofReport FoundProof,
            ProgramChanges? Search, ChangedPrograms? Chosen, ProofReport? Proof, ListOf<string> Files);
}
