using Valvewright.Engine.Controllers;
using Valvewright.Files.Problems;
using Valvewright.Records;
using Valvewright.Records.Views;
using Valvewright.Server.Hosting;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Store;

namespace Valvewright.Server.Sites;

/// <summary>Questions whose answers are worked out on the spot; nothing is stored.</summary>
internal sealed class AskingEndpoints(SiteStore store) : IEndpoints
{
    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapPost("/api/surveys/understood", (Delegate)Understood).Takes<string>(
            SiteEndpoints.LargestSurveyBytes, SiteEndpoints.SurveyTypes)
            .Gives<SurveyUnderstood>("What a survey says, or what is wrong with it; nothing is stored.");
        routes.MapGet("/api/profiles", Profiles).Gives<ListOf<Profile>>("The built-in controller profiles.");
        routes.MapGet("/api/sites/{site}/needs.json", Needs).Gives<NeedsView>("What each zone needs, and where each number comes from.");
    }

    private static async Task<IResult> Understood(HttpContext http)
    {
        (SiteValue value, Site site, ListOf<Problem> questions) = SiteReading
            .Survey(await Body.Text(http, SiteEndpoints.LargestSurveyBytes, SiteEndpoints.SurveyTypes));
        return Answers.Json(new SurveyUnderstood(site, value.Digest, questions.Select(Shown.Of).ToListOf()));
    }

    private static IResult Profiles() => Answers.Json(GenericProfiles.All);

    private IResult Needs(string site)
    {
        (Kept<SiteValue> kept, Site read, _) = SiteReading.Of(store, site);
        Work.SiteYears years = SiteReading.Years(store, kept.Id, read);
        return Answers.Json(new NeedsView(years.Split.Explanation, years.Needs()));
    }
}
