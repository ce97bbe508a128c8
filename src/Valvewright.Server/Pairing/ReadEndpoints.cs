using System.Security.Cryptography;
using System.Text;
using NodaTime;
using Valvewright.Files.Cards.Pdf;
using Valvewright.Records;
using Valvewright.Server.Hosting;
using Valvewright.Server.Plans;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Store;

namespace Valvewright.Server.Pairing;

/// <summary>A link by which a person who is not paired reads the cards of one site, and can do nothing else.</summary>
internal sealed class ReadEndpoints(SiteStore store, SharedCode shared, CardEndpoints cards) : IEndpoints
{
    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/sites/{site}/read-link.txt", Link)
            .GivesText("The link by which the cards of the site can be read without being paired.", "text/plain");
        routes.MapGet(SharedCode.ReadAddress + "/{site}/{key}", Read).GivesText("The cards of the site, to be read.", "application/pdf");
    }

    private IResult Link(string site, HttpContext http)
    {
        Guid id = Given.Id(site, "site");
        string key = shared.ReadKey(id) ?? throw new Refusal(StatusCodes.Status409Conflict, "no-code",
            "Without a code everything can be read: there is no link to give.").Expecting("a server that was started with --code");
        return Answers.Text(
            $"{http.Request.Scheme}://{http.Request.Host}{SharedCode.ReadAddress}/{id}/{key}",
                "text/plain");
    }

    private IResult Read(HttpRequest request, string site, string key, string? language)
    {
        Guid id = Given.Id(site, "site");
        if (shared.ReadKey(id) is not { } known || !CryptographicOperations.FixedTimeEquals(
            Encoding.UTF8.GetBytes(key), Encoding.UTF8.GetBytes(known)) || store.Site(id) is null)
        {
            throw Refusal.NotFound("site");
        }

        Kept<PlanValue> plan = PlanReading.Best(store, id) ?? throw Refusal.NotFound("plan");
        return cards.Pdf(request, site, plan.Id.ToString(), null, null, language, null);
    }
}
