using Microsoft.Extensions.DependencyInjection;
using Valvewright.Files.Rounds;
using Valvewright.Files.Texts;
using Valvewright.Records;
using Valvewright.Records.Views;
using Valvewright.Server.Hosting;
using Valvewright.Server.People;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Store;
using Valvewright.Work.Rounds;

namespace Valvewright.Server.Nights;

/// <summary>The advice of the night: for those who sign in, and at secret addresses for calendars and programs that can't.</summary>
internal sealed class FeedEndpoints(SiteStore store, IClock clock) : IEndpoints
{
    /// <summary>Where secret addresses begin.</summary>
    public const string Address = "/feeds";

    private const int LargestBytes = 10_000;
    private const int LongestName = 100;
    private const string Calendar = "advice.ics";
    private const string AsJson = "advice.json";

    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet($"/api/{AsJson}", Own).Gives<AdviceSheet>("The advice of the night for all sites.");
        routes.MapGet("/api/feeds", List).Gives<ListOf<FeedView>>("The secret addresses at which the advice can be read.");
        routes.MapPost("/api/feeds", Post).Takes<FeedRequest>(LargestBytes, "application/json")
            .Produces<FeedMade>(StatusCodes.Status201Created)
            .WithSummary("Makes a secret address at which the advice can be read. It is told once.");
        routes.MapDelete("/api/feeds/{feed}", Delete).GivesNothing("Takes a secret address away.");
        routes.MapGet($"{Address}/{{secret}}/{Calendar}", OfCalendar).GivesText("The advice as a calendar.", "text/calendar");
        routes.MapGet($"{Address}/{{secret}}/{AsJson}", OfJson).GivesText("The advice as JSON.", "application/json");
    }

    private IResult Own(HttpContext http) => Answers.Json(Sheet(site => OwnSites.Sees(http, site)));

    private IResult List(HttpContext http) => Answers.Json(store.Feeds(Organization(http)).Select(View).ToListOf());

    private async Task<IResult> Post(string? by, HttpContext http)
    {
        Stamp stamp = Given.Stamp(by, clock);
        FeedRequest request = await Body.Json<FeedRequest>(http, LargestBytes);
        string secret = Secret.Make();
        KeptFeed feed = new(
            Ids.New(), Given.Line(request.Name, "name", LongestName), Secret.Digest(secret), Organization(http), stamp);
        store.AddFeed(feed);
        string begin = $"{http.Request.Scheme}://{http.Request.Host}{Address}/{secret}/";
        http.Response.Headers.CacheControl = "no-store";
        return Answers.Json(new FeedMade(View(feed), new Uri(begin + Calendar), new Uri(begin + AsJson)), StatusCodes.Status201Created);
    }

    private IResult Delete(string feed, HttpContext http) =>
        store.RemoveFeed(Given.Id(feed, "feed"), Organization(http)) ? Results.NoContent() : throw Refusal.NotFound("feed");

    private IResult OfCalendar(string secret, string? language, HttpContext http) =>
        Answers.Text(Seen(secret, http).AsCalendar(Spoken(language)), "text/calendar");

    private IResult OfJson(string secret, HttpContext http) => Answers.Text(Seen(secret, http).AsJson(), "application/json");

    /// <summary>What a secret address shows: the sites of its organization; where people do not sign in, all.</summary>
    private AdviceSheet Seen(string secret, HttpContext http)
    {
        PeopleContext? people = http.RequestServices.GetService<PeopleContext>();
        KeptFeed? feed = store.Feed(Secret.Digest(secret));
        return feed is null || (feed.Organization is null) != (people is null) ? throw Refusal.NotFound("feed")
            : people is null ? Sheet(_ => true) : Sheet(new OwnSites(people, store, feed.Organization!.Value).Includes);
    }

    private AdviceSheet Sheet(Func<Guid, bool> sees)
    {
        Dictionary<Guid, string> names = store.Sites().ToDictionary(s => s.Id, s => s.Value.Name);
        (string Name, LocalDate Night, SiteAdvice Advice)[] seen = [.. store.Advice().Where(a => sees(a.Site) && names.ContainsKey(a.Site))
            .Select(a => (names[a.Site], a.Night, Nightly.Read(a.Value))).OrderBy(a => a.Item1, StringComparer.Ordinal)];
        return new AdviceSheet(
            seen.Length == 0 ? clock.GetCurrentInstant().InUtc().Date : seen.Max(s => s.Night),
            seen.SelectMany(s => s.Advice.Controllers.Select(a => AdviceLine.Of(s.Name, a))).ToListOf(),
            seen.Where(s => s.Advice.Missing is not null).Select(s => new AdviceMissing(s.Name, s.Advice.Missing!)).ToListOf());
    }

    private static Guid? Organization(HttpContext http) => http.Features.Get<Caller>()?.Organization;

    private static Language Spoken(string? said) => Given.Word(said, "language", "en", "es") == "es" ? Language.Spanish : Language.English;

    private static FeedView View(KeptFeed feed) => new(feed.Id, feed.Name, feed.Made.By, feed.Made.At);
}
