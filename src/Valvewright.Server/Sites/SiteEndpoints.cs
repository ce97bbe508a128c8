using Valvewright.Files.Problems;
using Valvewright.Records.Views;
using Valvewright.Records;
using Valvewright.Server.Conflicts;
using Valvewright.Server.Hosting;
using Valvewright.Server.People;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Store;

namespace Valvewright.Server.Sites;

/// <summary>Sites and their surveys.</summary>
internal sealed class SiteEndpoints(SiteStore store, IClock clock) : IEndpoints
{
    /// <summary>A site file is written by a person; no person writes more than this.</summary>
    public const int LargestSurveyBytes = 2_000_000;

    /// <summary>Media types of a survey.</summary>
    public static readonly string[] SurveyTypes = ["application/yaml", "text/yaml", "text/plain"];

    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/sites", List).Gives<ListOf<SiteLine>>("All sites, by name.");
        routes.MapGet("/api/sites/{site}", Get).Gives<SiteView>("A site: its survey as written and as understood.");
        routes.MapGet("/api/sites/{site}/survey", Survey).GivesText("The survey as written.", "application/yaml");
        routes.MapPut("/api/sites/{site}", Put).Takes<string>(LargestSurveyBytes, SurveyTypes).Gives<SiteView>(
            "Makes a site of that id, or changes its survey.");
        routes.MapDelete("/api/sites/{site}", Delete).GivesNothing("Removes a site; its history stays and the removal can be undone.");
    }

    private IResult List(HttpContext http) =>
        Answers.Json(store.Sites().Where(s => OwnSites.Sees(http, s.Id))
            .Select(s => new SiteLine(s.Id, s.Version, s.Value.Name, s.Value.Digest, s.Changed)).ToListOf());

    private IResult Get(string site, HttpContext http)
    {
        (Kept<SiteValue> kept, Site read, ListOf<Problem> questions) = SiteReading.Of(store, site);
        return Answers.Tagged(http, kept.Version, () => Answers.Json(View(store, kept, read, questions)));
    }

    private IResult Survey(string site, HttpContext http)
    {
        Kept<SiteValue> kept = store.Site(Given.Id(site, "site")) ?? throw Refusal.NotFound("site");
        return Answers.Tagged(http, kept.Version, () => Answers.Text(kept.Value.Survey, "application/yaml"));
    }

    private async Task<IResult> Put(string site, string? by, [FromHeader(Name = "If-Match")] string? ifMatch, HttpContext http)
    {
        Guid id = Given.Id(site, "site");
        long? expected = Given.Version(ifMatch);
        Stamp stamp = Given.Stamp(by, clock);
        (SiteValue value, Site read, ListOf<Problem> questions) = SiteReading
            .Survey(await Body.Text(http, LargestSurveyBytes, SurveyTypes));
        // Another organization's site: a new one can't be made under its id, and a change finds nothing to change.
        Answer<SiteValue> answer = OwnSites.Takes(http, id, mayBeNew: expected is null) ? store.PutSite(id, value, expected, stamp)
            : new Answer<SiteValue>(expected is null ? Outcome.Taken : Outcome.Missing, null);
        Kept<SiteValue> kept = Keeping.Settle(store, id, answer, value, expected, http);
        return Answers.Json(View(store, kept, read, questions), http.Response.StatusCode);
    }

    private IResult Delete(string site, string? by, [FromHeader(Name = "If-Match")] string? ifMatch)
    {
        Guid id = Given.Id(site, "site");
        return Removing.Of<SiteValue>(store, id, id, ifMatch, Given.Stamp(by, clock), "site");
    }

    /// <summary>A site as people see it.</summary>
    public static SiteView View(SiteStore store, Kept<SiteValue> kept, Site site, ListOf<Problem> questions) => new(
        kept.Id, kept.Version, kept.Value.Name, kept.Value.Digest, kept.Changed, kept.Value.Survey,
        site, questions.Select(Shown.Of).ToListOf(), WeatherEndpoints.View(store, kept.Id, null));
}
