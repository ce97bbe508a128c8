using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Records;
using Valvewright.Records.Views;
using Valvewright.Server.Conflicts;
using Valvewright.Server.Hosting;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Server.Sites;
using Valvewright.Store;

namespace Valvewright.Server.Visits;

/// <summary>Traces of faults: put aside by one person, taken up by another, and kept with what they found.</summary>
internal sealed class TraceEndpoints(SiteStore store, IClock clock) : IEndpoints
{
    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/sites/{site}/traces", List).Gives<ListOf<RecordView<TraceValue>>>("A site's traces of faults.");
        routes.MapGet("/api/sites/{site}/traces/{trace}", Get).Gives<RecordView<TraceValue>>("A trace.");
        routes.MapPut("/api/sites/{site}/traces/{trace}", Put).Takes<TraceValue>(Body.LargestJsonBytes, "application/json")
            .Gives<RecordView<TraceValue>>("Puts a trace aside, or goes on with it.");
        routes.MapDelete("/api/sites/{site}/traces/{trace}", Delete).GivesNothing("Removes a trace.");
    }

    private IResult List(string site)
    {
        (Kept<SiteValue> kept, _, _) = SiteReading.Of(store, site);
        return Answers.Json(store.All<TraceValue>(kept.Id).Select(View).ToListOf());
    }

    private IResult Get(string site, string trace, HttpContext http)
    {
        Kept<TraceValue> kept = store.Find<TraceValue>(Given.Id(site, "site"), Given.Id(trace, "trace")) ?? throw Refusal.NotFound("trace");
        return Answers.Tagged(http, kept.Version, () => Answers.Json(View(kept)));
    }

    private async Task<IResult> Put(string site, string trace, string? by, [FromHeader(Name = "If-Match")] string? ifMatch,
        HttpContext http)
    {
        Guid siteId = Given.Id(site, "site"), id = Given.Id(trace, "trace");
        long? expected = Given.Version(ifMatch);
        Stamp stamp = Given.Stamp(by, clock);
        TraceValue value = await Body.Json<TraceValue>(http);
        RecordRules.Require(value);
        return Answers.Json(View(Keeping.Settle(store, id, store.Put(siteId, id, value, expected, stamp), value, expected, http)),
            http.Response.StatusCode);
    }

    private IResult Delete(string site, string trace, string? by, [FromHeader(Name = "If-Match")] string? ifMatch) =>
        Removing.Of<TraceValue>(store, Given.Id(site, "site"), Given.Id(trace, "trace"), ifMatch, Given.Stamp(by, clock), "trace");

    /// <summary>A trace as people see it.</summary>
    public static RecordView<TraceValue> View(Kept<TraceValue> kept) => new(kept.Id, kept.Version, kept.Changed, kept.Value);
}
