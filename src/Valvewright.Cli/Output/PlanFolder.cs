using System.Text;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Season;
using Valvewright.Files.Cards;
using Valvewright.Files.Cards.Pdf;
using Valvewright.Files.Plans;
using Valvewright.Files.Season;
using Valvewright.Files.Texts;
using Valvewright.Work.Search;

namespace Valvewright.Cli.Output;

/// <summary>The files that a plan leaves behind: the plan, its proof and its cards; with visits, its season too.</summary>
internal static class PlanFolder
{
    /// <summary>Makes them all; none is written yet.</summary>
    /// <param name="folder">Where they go.</param>
    /// <param name="made">A plan with its proof.</param>
    /// <param name="language">The language of the owner's page.</param>
    public static WholeFiles Of(string folder, SitePlan made, Language language)
    {
        Site site = made.Years.Site;
        Plan plan = made.Plan!;
        LocalDate from = made.From;
        PlanVerdict? verdict = PlanVerdict.Read(Json.Write(made.Proof));
        CardContent[] cards = [.. plan.Controllers.Where(c => c.Settings.Programs.Count > 0).Select(c => CardContent.Of(site, plan, c.Controller, from) with { Verdict = verdict })];
        StringBuilder text = new();
        foreach (CardContent card in cards)
        {
            text.Append(text.Length > 0 ? "\n\f\n" : "").Append(CardText.Write(card, Language.English));
        }

        PaperSize paper = CardPdf.UsualPaper(site.Units);
        WholeFiles files = new WholeFiles(folder)
            .Add(PlanFiles.UsualName, PlanFiles.Write(SavedPlan.Of(site, plan, from)))
            .Add("proof.json", Json.Write(made.Proof) + "\n")
            .Add("cards.txt", text.ToString());
        if (cards.Length > 0)
        {
            files.Add("cards.pdf", CardPdf.Write(cards, paper, Language.English));
        }

        return made.Season is { } season ? AddSeason(files, made, season, paper, language) : files;
    }

    private static WholeFiles AddSeason(WholeFiles files, SitePlan made, SeasonPlan season, PaperSize paper, Language language)
    {
        Site site = made.Years.Site;
        OwnerContent owner = OwnerContent.Of(site, made.Plan!, made.Years.HeldBack, made.Proof!);
        return files
            .Add("season.json", Json.Write(season) + "\n")
            .Add("season.pdf", OwnerPage.Pdf(owner, paper, language))
            .Add("season.svg", OwnerPage.Svg(owner, paper, language))
            .Add("season.png", OwnerPage.Png(owner, paper, language))
            .Add("season.csv", SeasonTable.Visits(made.Plan!, made.From.Year))
            .Add("season-weeks.csv", SeasonTable.Weeks(owner.Year))
            .Add("visits.ics", VisitCalendar.Write(site, made.Plan!, made.From, everyYear: season.Options.OnlyOn.Count == 0));
    }
}
