using Microsoft.Extensions.Hosting;
using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Records.Jobs;
using Valvewright.Records;
using Valvewright.Server.Hosting;
using Valvewright.Server.People;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Server.Sites;
using Valvewright.Store;
using Refusal = Valvewright.Server.Problems.Refusal;

namespace Valvewright.Server.Jobs;

/// <summary>Long work.</summary>
internal sealed class JobEndpoints(SiteStore store, IClock clock, JobBoard board, IHostApplicationLifetime server) : IEndpoints
{
    private const int LargestBytes = 256_000;
    private const int MostChanges = 999;
    private const int LongestWaitSeconds = 20;

    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapPost("/api/sites/{site}/jobs", Post).Takes<JobRequest>(LargestBytes, "application/json").Produces<JobView>(
            StatusCodes.Status202Accepted).WithSummary(
            "Asks for a plan, the proof of a plan, the visits of a year, or better programs than those that are there.");
        routes.MapGet("/api/sites/{site}/jobs", ListOfSite).Gives<ListOf<JobView>>(
            "A site's jobs that are remembered, the latest first, without their results.");
        routes.MapGet("/api/jobs", (Delegate)List).Gives<ListOf<JobView>>("Jobs that are remembered, without their results.");
        routes.MapGet("/api/jobs/{job}", Get)
            .Gives<JobView>("How far a job has come, and its result; with wait, when it has ended or after so many seconds.");
        routes.MapDelete("/api/jobs/{job}", Stop).Gives<JobView>("Stops a job.");
    }

    private async Task<IResult> Post(string site, string? by, HttpContext http)
    {
        (Kept<SiteValue> kept, _, _) = SiteReading.Of(store, site);
        Stamp stamp = Given.Stamp(by, clock);
        JobRequest request = await Body.Json<JobRequest>(http, LargestBytes);
        Given.Word(request.Kind, "kind", "plan", "proof", "season", "found");
        Given.Amount(request.Visits, "visits", request.Kind == "plan" ? 0 : 1, 12);
        if (request.From is { Year: < 1901 or > 2199 } date)
        {
            throw Refusal.Wrong($"{"from"}", $"{date}", "a date of the years 1901 to 2199", "This date cannot be right.");
        }

        if (request.Kind != "found" && (request.Read is not null || request.Changes is not null))
        {
            throw Refusal.Wrong($"{(request.Read is null ? "changes" : "read")}", $"{request.Kind}", "the kind found",
                "Only programs that are there are read, and changed setting by setting.");
        }

        Given.Amount(request.Changes, "changes", 0, MostChanges);
        if (request.Wishes is { } wishes)
        {
            Require(wishes, request);
        }

        JobView job = board.Add(kept, request, stamp);
        http.Response.Headers.Location = $"/api/jobs/{job.Id}";
        return Answers.Json(job, StatusCodes.Status202Accepted);
    }

    private static void Require(SeasonWishes wishes, JobRequest request)
    {
        if (request.Kind is "proof" or "found" || request is { Kind: "plan", Visits: 0 })
        {
            throw Refusal.Wrong($"{"wishes"}", $"{request.Kind}", "wishes with the kind season, or with a plan of 1 visit or more",
                "Only visits have wishes.");
        }

        Given.Amount(wishes.LeastDaysBetween, "wishes.leastDaysBetween", 1, 180);
        Given.Amount(wishes.UnmetWeight, "wishes.unmetWeight", 0.1, 50);
        Given.Amount(wishes.MostUnmet, "wishes.mostUnmet", 0.001, 0.999);
        Given.Amount(wishes.MostWaterM3, "wishes.mostWaterM3", 0, 1e6);
        Given.Amount(wishes.OnlyOn?.Count, "the number of wishes.onlyOn", 0, 7);
        Given.Amount(wishes.NotIn?.Count, "the number of wishes.notIn", 0, 12);
        Given.Amount(wishes.Agreed?.Count, "the number of wishes.agreed", 0, 12);
        if (wishes.Contradiction is { } both)
        {
            throw Refusal.Wrong($"{"wishes"}", $"{Name(both.Second)}, {Name(both.First)}", "one of the two",
                "The weight follows from the limit that is set.");
        }

        if (wishes.OnlyOn?.Any(d => d is < IsoDayOfWeek.Monday or > IsoDayOfWeek.Sunday) == true
            || wishes.NotIn?.Any(p => p is null) == true)
        {
            throw Refusal.Wrong($"{"wishes"}", "a day or a time of the year that there is not", "monday to sunday, from and to",
                "These wishes cannot be understood.");
        }
    }

    private static string Name(string member) => System.Text.Json.JsonNamingPolicy.CamelCase.ConvertName(member);

    private async Task<IResult> ListOfSite(string site)
    {
        (Kept<SiteValue> kept, _, _) = SiteReading.Of(store, site);
        return Answers.Json(await board.All(s => s == kept.Id));
    }

    private async Task<IResult> List(HttpContext http) => Answers.Json(await board.All(s => OwnSites.Sees(http, s)));

    private async Task<IResult> Get(string job, int? wait, HttpContext http)
    {
        Given.Id(job, "job");
        double? longest = Given.Amount(wait, "wait", 0, LongestWaitSeconds);
        Guid id = Own(job, http);
        if (longest is { } seconds)
        {
            using CancellationTokenSource gone =
                CancellationTokenSource.CreateLinkedTokenSource(http.RequestAborted, server.ApplicationStopping);
            await board.Ended(id, TimeSpan.FromSeconds(seconds), gone.Token);
        }

        return Answers.Json(await board.Find(id) ?? throw Refusal.NotFound("job"));
    }

    private async Task<IResult> Stop(string job, HttpContext http) =>
        Answers.Json(await board.Stop(Own(job, http)) ?? throw Refusal.NotFound("job"));

    /// <summary>The id of a job of a site that the one who asks sees.</summary>
    private Guid Own(string job, HttpContext http) => store.Job(Given.Id(job, "job")) is { } found && OwnSites.Sees(http, found.Site)
        ? found.Id : throw Refusal.NotFound("job");
}
