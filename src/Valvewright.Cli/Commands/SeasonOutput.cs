using NodaTime;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Values;
using Valvewright.Files.Cards.Pdf;
using Valvewright.Files.Season;
using Valvewright.Files.Texts;

namespace Valvewright.Cli.Commands;

/// <summary>The files of a season, beside those of its plan.</summary>
internal static class SeasonOutput
{
    public static WholeFiles AddTo(WholeFiles files, SiteInputs inputs, SeasonMade made, LocalDate from, ProofReport proof, Language language)
    {
        OwnerContent owner = OwnerContent.Of(inputs.Site, made.Plan, inputs.HeldBack, proof);
        PaperSize paper = CardPdf.UsualPaper(inputs.Site.Units);
        return files
            .Add("season.json", Json.Write(made.Season) + "\n")
            .Add("season.pdf", OwnerPage.Pdf(owner, paper, language))
            .Add("season.svg", OwnerPage.Svg(owner, paper, language))
            .Add("season.png", OwnerPage.Png(owner, paper, language))
            .Add("season.csv", SeasonTable.Visits(made.Plan, from.Year))
            .Add("season-weeks.csv", SeasonTable.Weeks(owner.Year))
            .Add("visits.ics", VisitCalendar.Write(inputs.Site, made.Plan, from, everyYear: made.Season.Options.OnlyOn.Count == 0));
    }
}
