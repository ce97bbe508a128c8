using System.Text;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
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
    /// <summary>The name of the plan before the one that is written.</summary>
    public const string FormerName = "former-plan.json";

    /// <summary>Makes them all; none is written yet.</summary>
    /// <param name="folder">Where they go.</param>
    /// <param name="made">A plan with its proof.</param>
    /// <param name="language">The language of cards, client summary, tables and calendar.</param>
    public static WholeFiles Of(string folder, SitePlan made, Language language)
    {
        Site site = made.Years.Site;
        WholeFiles files = Of(folder, site, SavedPlan.Of(site, made.Plan!, made.From), made.Proof!, Former(folder), language);
        return made.Season is { } season ? AddSeason(files, made, season, CardPdf.UsualPaper(site.Units), language) : files;
    }

    /// <summary>Plan, proof and cards, and the plan that they take the place of.</summary>
    /// <param name="folder">Where they go.</param>
    /// <param name="site">The site.</param>
    /// <param name="saved">The plan.</param>
    /// <param name="proof">Its proof.</param>
    /// <param name="former">The plan before it; null for none. The same plan again is none.</param>
    /// <param name="language">The language of the cards.</param>
    public static WholeFiles Of(string folder, Site site, SavedPlan saved, ProofReport proof, SavedPlan? former, Language language)
    {
        (Plan plan, LocalDate from) = (saved.Plan, saved.From);
        PlanVerdict? verdict = PlanVerdict.Read(Json.Write(proof));
        CardContent[] cards = [.. plan.Controllers.Where(c => c.Settings.Programs.Count > 0)
            .Select(c => CardContent.Of(site, plan, c.Controller, from) with { Verdict = verdict })];
        StringBuilder text = new();
        foreach (CardContent card in cards)
        {
            text.Append(text.Length > 0 ? "\n\f\n" : "").Append(CardText.Write(card, language));
        }

        PaperSize paper = CardPdf.UsualPaper(site.Units);
        WholeFiles files = new WholeFiles(folder)
            .Add(PlanFiles.UsualName, PlanFiles.Write(saved))
            .Add("proof.json", Json.Write(proof) + "\n")
            .Add("cards.txt", text.ToString());
        if (cards.Length > 0)
        {
            files.Add("cards.pdf", CardPdf.Write(cards, paper, language));
        }

        return former is null || former.Plan == plan ? files : files.Add(FormerName, PlanFiles.Write(former));
    }

    /// <summary>The plan in a folder; null where there is none that can be read.</summary>
    public static SavedPlan? Former(string folder) => PlanFiles.Read(Path.Combine(folder, PlanFiles.UsualName)).Saved;

    private static WholeFiles AddSeason(WholeFiles files, SitePlan made, SeasonPlan season, PaperSize paper, Language language)
    {
        Site site = made.Years.Site;
        OwnerContent owner = OwnerContent.Of(site, made.Plan!, made.Years.HeldBack, made.Proof!);
        return files
            .Add("season.json", Json.Write(season) + "\n")
            .Add("season.pdf", OwnerPage.Pdf(owner, paper, language))
            .Add("season.svg", OwnerPage.Svg(owner, paper, language))
            .Add("season.png", OwnerPage.Png(owner, paper, language))
            .Add("season.csv", SeasonTable.Visits(made.Plan!, made.From.Year, language))
            .Add("season-weeks.csv", SeasonTable.Weeks(owner.Year, language))
            .Add("visits.ics", VisitCalendar.Write(site, made.Plan!, made.From, everyYear: season.Options.OnlyOn.Count == 0, language));
    }
}
