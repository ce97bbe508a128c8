using System.CommandLine;
using NodaTime;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;
using Valvewright.Files.Cards;
using Valvewright.Files.Cards.Pdf;
using Valvewright.Files.Plans;
using Valvewright.Files.Problems;
using Valvewright.Files.Texts;

namespace Valvewright.Cli.Commands;

/// <summary>Makes the pages that controllers are set from.</summary>
internal static class CardCommand
{
    /// <summary>The file that cards are written to.</summary>
    public const string FileName = "cards.pdf";

    public static Job Make()
    {
        Argument<string> site = SiteArguments.Site();
        Option<string?> plan = new("--plan")
            { Description = "The saved plan. Default: out/plan.json next to the site file.", HelpName = "file" };
        Option<string?> controller = new("--controller") { Description = "Only this controller's card. Default: all.", HelpName = "name" };
        Option<string?> paper = new("--paper") { Description = "Paper size. Default: by the site's units.", HelpName = "a4|letter" };
        Option<bool> text = new("--text") { Description = "Print the cards as text; writes a file only with --out." };
        Option<string?> folder = new("--out")
            { Description = "Folder for cards.pdf. Default: out next to the site file.", HelpName = "folder" };
        Option<LocalDate?> from = SiteArguments.From("Date of programming. Default: today, or the plan's first date if later.");
        paper.AcceptOnlyFromAmong("a4", "letter");
        Job job = new("card", "Print the card to set a controller from.", "valvewright card demo/quarry-hill",
            "valvewright card demo/quarry-hill --language es --paper letter", "valvewright card demo/quarry-hill --text");
        job.Arguments.Add(site);
        foreach (Option option in new Option[] { plan, controller, paper, text, folder, from })
        {
            job.Options.Add(option);
        }

        return job.Does((parse, sheet, cancel) => Run(
            new Wish(parse.GetValue(site)!, parse.GetValue(plan), parse.GetValue(controller), parse.GetValue(paper), sheet.Language,
                parse.GetValue(text), parse.GetValue(folder), parse.GetValue(from)),
            sheet,
            cancel));
    }

    private static int Run(Wish wish, Sheet sheet, CancellationToken cancel)
    {
        SiteFile file = SiteFile.Read(wish.Site);
        Site site = file.Site;
        string planFile = wish.Plan ?? file.UsualPlan;
        SavedPlan saved = file.ReadPlan(planFile);
        string[] names = Names(site, saved.Plan, planFile, wish.Controller);
        LocalDate from = wish.From ?? LocalDate.Max(saved.From, file.Today);
        sheet.Progress.Step("Making the cards");
        PlanVerdict? verdict = VerdictBeside(planFile);
        CardContent[] cards = [.. names.Select(n => CardContent.Of(site, saved.Plan, n, from) with { Verdict = verdict })];
        cancel.ThrowIfCancellationRequested();
        string? written = null;
        if (!wish.Text || wish.Folder is not null)
        {
            PaperSize paper = wish.Paper switch
            {
                "a4" => PaperSize.A4,
                "letter" => PaperSize.Letter,
                _ => CardPdf.UsualPaper(site.Units),
            };
            WholeFiles files = new(wish.Folder ?? file.OutputFolder);
            files.Add(FileName, CardPdf.Write(cards, paper, wish.Language));
            cancel.ThrowIfCancellationRequested();
            files.Write();
            written = files.Paths.Single();
        }

        Tell(sheet, wish, cards, new CardAnswer(!saved.IsFor(site), written, [.. cards]));
        return ExitCode.Done;
    }

    /// <summary>The verdict of the proof that lies beside a plan; none where the plan was written later than it.</summary>
    private static PlanVerdict? VerdictBeside(string planFile)
    {
        string proof = Path.Combine(Path.GetDirectoryName(Path.GetFullPath(planFile))!, "proof.json");
        return File.Exists(proof) && File.GetLastWriteTimeUtc(proof) >= File.GetLastWriteTimeUtc(planFile)
            ? PlanVerdict.Read(File.ReadAllText(proof)) : null;
    }

    private static void Tell(Sheet sheet, Wish wish, CardContent[] cards, CardAnswer answer)
    {
        sheet.Answer(answer);
        if (answer.SurveyHasChanged)
        {
            sheet.Say("The survey has changed since this plan was made. Prove the plan, or plan again, before you set a controller.");
        }

        if (wish.Text)
        {
            sheet.Verbatim(string.Join("\n\n", cards.Select(c => CardText.Write(c, wish.Language))));
        }
        else
        {
            Table table = new("controller", "programs", "check");
            foreach (CardContent card in cards)
            {
                table.Row(Printable.Of(card.Controller), string.Join(' ', card.Programs.Select(p => p.Program.Letter)), card.Check);
            }

            sheet.Show(table);
        }

        if (answer.File is not null)
        {
            sheet.Say($"{(cards.Length == 1 ? (Sentence)"1 card" : (Sentence)$"{cards.Length} cards")}: {answer.File}");
        }
    }

    /// <summary>The controllers to make cards for, each of which can hold what is planned.</summary>
    private static string[] Names(Site site, Plan plan, string planFile, string? wanted)
    {
        string[] known = [.. plan.Controllers.Select(c => c.Controller)];
        if (wanted is not null && !known.Contains(wanted))
        {
            throw new ProblemsException(
                new Problem("--controller", 0, 0, wanted, string.Join(", ", known.Select(Printable.Of)), NearestWord.To(wanted, known),
                    "the plan has no such controller"));
        }

        string[] names = wanted is null ? known : [wanted];
        List<Problem> problems = [.. names.Where(n => site.Controllers.All(c => c.Name != n))
            .Select(n => new Problem(planFile, 0, 0, n, string.Join(", ", site.Controllers.Select(c => Printable.Of(c.Name))),
                NearestWord.To(n, site.Controllers.Select(c => c.Name)), "the survey has no such controller"))];
        if (problems.Count == 0)
        {
            problems.AddRange(names.SelectMany(n => Keyable.Breaches(site.ControllerNamed(n), plan.For(n)))
                .Select(b => new Problem(planFile, 0, 0, b.What, "settings that the controller holds", null, b.Where)));
        }

        if (problems.Count == 0 && names.Length == 0)
        {
            problems.Add(new Problem(
                planFile, 0, 0, "no controllers", "a plan for at least one", null, "there is nothing to make a card of"));
        }

        return problems.Count == 0 ? names : throw new ProblemsException(problems);
    }

    /// <summary>What a person asked for.</summary>
    private sealed record Wish(
        string Site, string? Plan, string? Controller, string? Paper, Language Language, bool Text, string? Folder, LocalDate? From);

    /// <summary>What <c>--json</c> prints.</summary>
    /// <param name="SurveyHasChanged">Whether the survey has changed since the plan was made.</param>
    /// <param name="File">The PDF that was written, if one was.</param>
    /// <param name="Cards">What each card says.</param>
    private sealed record CardAnswer(bool SurveyHasChanged, string? File, ListOf<CardContent> Cards);
}
