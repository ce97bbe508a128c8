using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Plans;
using Valvewright.Records.Views;
using Valvewright.Records;
using Valvewright.Server.Conflicts;
using Valvewright.Server.Hosting;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Server.Sites;
using Valvewright.Store;

namespace Valvewright.Server.Visits;

/// <summary>Settings read off displays, and their checks.</summary>
internal sealed class ReadingEndpoints(SiteStore store, IClock clock) : IEndpoints
{
    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/sites/{site}/readings", List).Gives<ListOf<RecordView<ReadingValue>>>("A site's readings.");
        routes.MapGet("/api/sites/{site}/readings/{reading}", Get).Gives<RecordView<ReadingValue>>("A reading.");
        routes.MapGet("/api/sites/{site}/readings/{reading}/check", Check).Gives<CheckView>(
            "What is wrong, against a plan (the latest when none is named) or alone.");
        routes.MapPut("/api/sites/{site}/readings/{reading}", Put).Takes<ReadingValue>(Body.LargestJsonBytes, "application/json")
            .Gives<RecordView<ReadingValue>>("Appends a reading, or corrects it.");
        routes.MapDelete("/api/sites/{site}/readings/{reading}", Delete).GivesNothing("Removes a reading.");
    }

    private IResult List(string site)
    {
        (Kept<SiteValue> kept, _, _) = SiteReading.Of(store, site);
        return Answers.Json(store.All<ReadingValue>(kept.Id).Select(View).ToListOf());
    }

    private IResult Get(string site, string reading, HttpContext http)
    {
        Kept<ReadingValue> kept = Find(Given.Id(site, "site"), reading);
        return Answers.Tagged(http, kept.Version, () => Answers.Json(View(kept)));
    }

    private async Task<IResult> Put(
        string site, string reading, string? by, [FromHeader(Name = "If-Match")] string? ifMatch, HttpContext http)
    {
        Guid siteId = Given.Id(site, "site"), id = Given.Id(reading, "reading");
        long? expected = Given.Version(ifMatch);
        Stamp stamp = Given.Stamp(by, clock);
        ReadingValue value = await Body.Json<ReadingValue>(http);
        RecordRules.Require(value);
        return Answers.Json(View(Keeping.Settle(store, id, store.Put(siteId, id, value, expected, stamp), value, expected, http)),
            http.Response.StatusCode);
    }

    private IResult Delete(string site, string reading, string? by, [FromHeader(Name = "If-Match")] string? ifMatch) =>
        Removing.Of<ReadingValue>(store, Given.Id(site, "site"), Given.Id(reading, "reading"), ifMatch, Given.Stamp(by, clock), "reading");

    private IResult Check(string site, string reading, string? plan, bool? alone, string? language)
    {
        CheckLanguage spoken = Given.Word(language, "language", "en", "es") == "es" ? CheckLanguage.Spanish : CheckLanguage.English;
        (Kept<SiteValue> keptSite, Site read, _) = SiteReading.Of(store, site);
        Kept<ReadingValue> kept = Find(keptSite.Id, reading);
        SiteController? controller = read.Controllers.FirstOrDefault(c => c.Name == kept.Value.Controller);
        ReadText text = ReadingText.Parse(kept.Value.Text, controller?.Profile, read.Clock, SiteNames.Of(read, controller));
        (Guid? planId, Plan? against) = PlanFor(keptSite.Id, kept.Value.Controller, plan, alone == true);
        CheckResult? result = controller is null ? null
            : Work.CheckReport.Of(
                new Work.CheckRequest(read, controller, against, text, null, text.Reading.ReadAt ?? kept.Value.ReadAt, spoken)).Check;
        return Answers.Json(new CheckView(View(kept), text.Reading, text.Doubts, planId, result));
    }

    private (Guid? Id, Plan? Plan) PlanFor(Guid site, string controller, string? plan, bool alone)
    {
        if (alone)
        {
            return (null, null);
        }

        IEnumerable<Kept<PlanValue>> plans = plan is null
            ? store.All<PlanValue>(site).Reverse()
            : [store.Find<PlanValue>(site, Given.Id(plan, "plan")) ?? throw Refusal.NotFound("plan")];
        foreach (Kept<PlanValue> kept in plans)
        {
            SavedPlan saved = Plans.PlanReading.Parse(kept.Value.Plan);
            if (saved.Plan.Controllers.Any(c => c.Controller == controller))
            {
                return (kept.Id, saved.Plan);
            }
        }

        return (null, null);
    }

    private Kept<ReadingValue> Find(Guid site, string reading) =>
        store.Find<ReadingValue>(site, Given.Id(reading, "reading")) ?? throw Refusal.NotFound("reading");

    /// <summary>A reading as people see it.</summary>
    public static RecordView<ReadingValue> View(Kept<ReadingValue> kept) => new(kept.Id, kept.Version, kept.Changed, kept.Value);
}
