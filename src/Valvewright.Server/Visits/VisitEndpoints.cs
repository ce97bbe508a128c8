using Valvewright.Records.Views;
using Valvewright.Records;
using Valvewright.Server.Conflicts;
using Valvewright.Server.Hosting;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Server.Sites;
using Valvewright.Store;

namespace Valvewright.Server.Visits;

/// <summary>Visits to controllers. They are appended from the field, often later than they were made and sometimes twice.</summary>
internal sealed class VisitEndpoints(SiteStore store, IClock clock) : IEndpoints
{
    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/sites/{site}/visits", List).Gives<ListOf<VisitView>>("A site's visits.");
        routes.MapGet("/api/sites/{site}/visits/{visit}", Get).Gives<VisitView>("A visit.");
        routes.MapPut("/api/sites/{site}/visits/{visit}", Put).Takes<VisitValue>(Body.LargestJsonBytes, "application/json")
            .Gives<VisitView>("Appends a visit, or corrects it.");
        routes.MapDelete("/api/sites/{site}/visits/{visit}", Delete).GivesNothing("Removes a visit.");
    }

    private IResult List(string site)
    {
        (Kept<SiteValue> kept, _, _) = SiteReading.Of(store, site);
        return Answers.Json(All(store, kept.Id));
    }

    /// <summary>A site's visits with their photos.</summary>
    public static ListOf<VisitView> All(SiteStore store, Guid site)
    {
        ILookup<Guid, Kept<PhotoValue>> photos = store.All<PhotoValue>(site).ToLookup(p => p.Value.Visit);
        return store.All<VisitValue>(site).Select(v => View(v, photos[v.Id])).ToListOf();
    }

    private IResult Get(string site, string visit, HttpContext http)
    {
        Kept<VisitValue> kept = store.Find<VisitValue>(Given.Id(site, "site"), Given.Id(visit, "visit")) ?? throw Refusal.NotFound("visit");
        http.Response.Headers.ETag = Given.Tag(kept.Version);
        return Answers.Json(View(kept));
    }

    private async Task<IResult> Put(
        string site, string visit, string? by, [FromHeader(Name = "If-Match")] string? ifMatch, HttpContext http)
    {
        Guid siteId = Given.Id(site, "site"), id = Given.Id(visit, "visit");
        long? expected = Given.Version(ifMatch);
        Stamp stamp = Given.Stamp(by, clock);
        VisitValue value = await Body.Json<VisitValue>(http);
        RecordRules.Require(value);
        return Answers.Json(View(Keeping.Settle(store, id, store.Put(siteId, id, value, expected, stamp), value, expected, http)),
            http.Response.StatusCode);
    }

    private IResult Delete(string site, string visit, string? by, [FromHeader(Name = "If-Match")] string? ifMatch) =>
        Removing.Of<VisitValue>(store, Given.Id(site, "site"), Given.Id(visit, "visit"), ifMatch, Given.Stamp(by, clock), "visit");

    private VisitView View(Kept<VisitValue> kept) => View(kept, store.All<PhotoValue>(kept.Site).Where(p => p.Value.Visit == kept.Id));

    private static VisitView View(Kept<VisitValue> kept, IEnumerable<Kept<PhotoValue>> photos) =>
        new(kept.Id, kept.Version, kept.Changed, kept.Value,
            photos.Select(p => new PhotoView(p.Id, p.Version, p.Value.Type, p.Value.Bytes, p.Value.Blob)).ToListOf());
}
