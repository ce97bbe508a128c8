using System.Text;
using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Cards;
using Valvewright.Files.Cards.Pdf;
using Valvewright.Files.Plans;
using Valvewright.Files.Texts;

namespace Valvewright.Cli.Output;

/// <summary>The files that a plan leaves behind: the plan, its proof, and the cards.</summary>
internal static class PlanOutput
{
    public static WholeFiles Make(string folder, Site site, Plan plan, LocalDate from, ProofReport proof)
    {
        CardContent[] cards = [.. plan.Controllers.Where(c => c.Settings.Programs.Count > 0).Select(c => CardContent.Of(site, plan, c.Controller, from))];
        StringBuilder text = new();
        foreach (CardContent card in cards)
        {
            text.Append(text.Length > 0 ? "\n\f\n" : "").Append(CardText.Write(card, Language.English));
        }

        WholeFiles files = new WholeFiles(folder)
            .Add(PlanFiles.UsualName, PlanFiles.Write(SavedPlan.Of(site, plan, from)))
            .Add("proof.json", Json.Write(proof) + "\n")
            .Add("cards.txt", text.ToString());
        return cards.Length == 0 ? files : files.Add("cards.pdf", CardPdf.Write(cards, CardPdf.UsualPaper(site.Units), Language.English));
    }
}
