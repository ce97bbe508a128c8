using System.Text.Json;
using Valvewright.Files.Plans;
using Valvewright.Records.Jobs;
using Valvewright.Records.Views;
using Valvewright.Records;
using Valvewright.Server.Conflicts;
using Valvewright.Server.Hosting;
using Valvewright.Server.Requests;
using Valvewright.Server.Sites;
using Valvewright.Store;

namespace Valvewright.Server.Plans;

/// <summary>Plans of a site; jobs make them, and a plan made elsewhere can be sent.</summary>
internal sealed class PlanEndpoints(SiteStore store, IClock clock) : IEndpoints
{
    private const int LargestBytes = 2_000_000;

    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/sites/{site}/plans", List).Gives<ListOf<PlanLine>>("A site's plans, the latest first.");
        routes.MapGet("/api/sites/{site}/plans/{plan}", Get).Gives<PlanView>("A plan with its proof.");
        routes.MapPut("/api/sites/{site}/plans/{plan}", Put).Takes<SavedPlan>(LargestBytes, "application/json").Gives<PlanView>(
            "Keeps a plan made elsewhere: the file plan.json.");
        routes.MapDelete("/api/sites/{site}/plans/{plan}", Delete).GivesNothing("Removes a plan.");
    }

    private IResult List(string site)
    {
        (Kept<SiteValue> kept, _, _) = SiteReading.Of(store, site);
        return Answers.Json(store.All<PlanValue>(kept.Id).Reverse()
            .Select(p => new PlanLine(
                p.Id, p.Version, p.Changed, p.Value.From, p.Value.Survey == kept.Value.Digest, p.Value.Proof is not null)).ToListOf());
    }

    private IResult Get(string site, string plan, HttpContext http)
    {
        PlanReading reading = PlanReading.Of(store, site, plan);
        return Answers.Tagged(http, reading.Kept.Version, () => Answers.Json(View(reading.Kept, reading.Saved.IsFor(reading.Site))));
    }

    private async Task<IResult> Put(string site, string plan, string? by, [FromHeader(Name = "If-Match")] string? ifMatch, HttpContext http)
    {
        (Kept<SiteValue> keptSite, Site read, _) = SiteReading.Of(store, site);
        Guid id = Given.Id(plan, "plan");
        long? expected = Given.Version(ifMatch);
        Stamp stamp = Given.Stamp(by, clock);
        SavedPlan saved = PlanReading.Parse(await Body.Text(http, LargestBytes, "application/json"));
        PlanReading.Require(read, saved);
        PlanValue value = new(saved.Survey, saved.From, PlanFiles.Write(saved));
        Kept<PlanValue> kept = Keeping.Settle(store, id, store.Put(keptSite.Id, id, value, expected, stamp), value, expected, http);
        return Answers.Json(View(kept, saved.IsFor(read)), http.Response.StatusCode);
    }

    private IResult Delete(string site, string plan, string? by, [FromHeader(Name = "If-Match")] string? ifMatch) =>
        Removing.Of<PlanValue>(store, Given.Id(site, "site"), Given.Id(plan, "plan"), ifMatch, Given.Stamp(by, clock), "plan");

    /// <summary>A plan as people see it.</summary>
    public static PlanView View(Kept<PlanValue> kept, bool fits) => new(
        kept.Id, kept.Version, kept.Changed, kept.Value.From, fits,
        JsonSerializer.Deserialize<JsonElement>(kept.Value.Plan), kept.Value.Proof is null ? null : JsonSerializer.Deserialize<JsonElement>(
            kept.Value.Proof),
        kept.Value.Season is null ? null : Json.Read<SeasonKept>(kept.Value.Season));
}
