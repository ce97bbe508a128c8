using NodaTime;
using Valvewright.Files.Cards;
using Valvewright.Files.Cards.Pdf;
using Valvewright.Files.Plans;
using Valvewright.Files.Texts;
using Valvewright.Server.Hosting;
using Valvewright.Server.Requests;
using Valvewright.Store;

namespace Valvewright.Server.Plans;

/// <summary>The pages that controllers are set from.</summary>
internal sealed class CardEndpoints(SiteStore store, IClock clock, ServerOptions options) : IEndpoints
{
    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/sites/{site}/plans/{plan}/cards.pdf", Pdf)
            .GivesText("The cards, to be printed and laminated.", "application/pdf");
        routes.MapGet("/api/sites/{site}/plans/{plan}/cards.txt", Text).GivesText("The cards as text.", "text/plain");
    }

    /// <summary>The cards of a plan as pages.</summary>
    public IResult Pdf(HttpRequest request, string site, string plan, string? controller, string? from, string? language, string? paper)
    {
        (CardContent[] cards, Language spoken) = Cards(site, plan, controller, from, language);
        PaperSize size = Given.Word(paper, "paper", "a4", "letter") switch
        {
            "a4" => PaperSize.A4,
            "letter" => PaperSize.Letter,
            _ => CardPdf.UsualPaper(cards[0].Units),
        };
        if (PlanReading.Best(store, Given.Id(site, "site"))?.Id == Given.Id(plan, "plan"))
        {
            Uri page = AddressOf(request);
            cards = [.. cards.Select(c => c with { Work = WorkLink.Of(page, Given.Id(site, "site"), c.Controller, c.From) })];
        }

        return Answers.Bytes(CardPdf.Write(cards, size, spoken), "application/pdf", "cards.pdf");
    }

    /// <summary>Where a telephone opens the page: at the address that this request came to, unless only this machine can.</summary>
    private Uri AddressOf(HttpRequest request)
    {
        Uri asked = new($"{request.Scheme}://{request.Host}/");
        return asked.IsLoopback ? options.Outside(asked) : asked;
    }

    private IResult Text(string site, string plan, string? controller, string? from, string? language)
    {
        (CardContent[] cards, Language spoken) = Cards(site, plan, controller, from, language);
        return Answers.Text(string.Join("\n\f\n", cards.Select(c => CardText.Write(c, spoken))), "text/plain");
    }

    private (CardContent[] Cards, Language Language) Cards(string site, string plan, string? controller, string? from, string? language)
    {
        Language spoken = Given.Word(language, "language", "en", "es") == "es" ? Language.Spanish : Language.English;
        LocalDate? given = Given.Date(from, "from");
        PlanReading reading = PlanReading.Of(store, site, plan);
        reading.RequireController(controller);
        PlanReading.Require(reading.Site, reading.Saved);
        PlanVerdict? verdict = PlanVerdict.Read(reading.Kept.Value.Proof);
        LocalDate date = given ?? LocalDate.Max(reading.Saved.From, clock.GetCurrentInstant().InZone(reading.Site.Zone()).Date);
        return ([.. reading.Saved.Plan.Controllers.Where(c => controller is null || c.Controller == controller)
            .Select(c => CardContent.Of(reading.Site, reading.Saved.Plan, c.Controller, date) with { Verdict = verdict })], spoken);
    }
}
