using NodaTime.Text;
using Valvewright.Files.Timelines;
using Valvewright.Files.Timelines.Pictures;
using Valvewright.Server.Hosting;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Store;

namespace Valvewright.Server.Plans;

/// <summary>What opens and closes when, under a plan.</summary>
internal sealed class TimelineEndpoints(SiteStore store) : IEndpoints
{
    private const int UsualDays = 14;
    private const int MostDays = 800;

    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/sites/{site}/plans/{plan}/timeline.json", Json).Gives<SiteWaterings>("What opens and closes when.");
        routes.MapGet("/api/sites/{site}/plans/{plan}/timeline.ics", Calendar)
            .GivesText("The same as a calendar (RFC 5545).", "text/calendar");
        routes.MapGet("/api/sites/{site}/plans/{plan}/timeline.csv", Csv).GivesText("The same as a table (RFC 4180).", "text/csv");
        routes.MapGet("/api/sites/{site}/plans/{plan}/timeline.svg", Svg).GivesText("The same as a picture.", "image/svg+xml");
    }

    private IResult Json(string site, string plan, string? from, string? to, string? controller) =>
        Answers.Json(Of(site, plan, from, to, controller).Waterings);

    private IResult Calendar(string site, string plan, string? from, string? to, string? controller) =>
        Answers.Text(TimelineCalendar.Write(Of(site, plan, from, to, controller).Waterings), "text/calendar");

    private IResult Csv(string site, string plan, string? from, string? to, string? controller) =>
        Answers.Text(TimelineCsv.Write(Of(site, plan, from, to, controller).Waterings), "text/csv");

    private IResult Svg(string site, string plan, string? from, string? to, string? controller)
    {
        (Site read, SiteWaterings waterings) = Of(site, plan, from, to, controller);
        return Answers.Text(TimelinePicture.Svg(read, waterings), "image/svg+xml");
    }

    private (Site Site, SiteWaterings Waterings) Of(string site, string plan, string? from, string? to, string? controller)
    {
        LocalDate? givenFrom = Given.Date(from, "from"), givenTo = Given.Date(to, "to");
        PlanReading reading = PlanReading.Of(store, site, plan);
        reading.RequireController(controller);
        PlanReading.Require(reading.Site, reading.Saved);
        LocalDate first = givenFrom ?? reading.Saved.From;
        LocalDate last = givenTo ?? first.PlusDays(UsualDays - 1);
        if (last < first || Period.DaysBetween(first, last) >= MostDays)
        {
            throw Refusal.Wrong(
                $"{"to"}", $"{LocalDatePattern.Iso.Format(last)}",
                    $"a date from {LocalDatePattern.Iso.Format(first)} to {MostDays} days on",
                        "The dates do not follow each other, or are too far apart.");
        }

        return (reading.Site, SiteWaterings.Of(reading.Site, reading.Saved.Plan, first, last, controller, since: reading.Saved.From));
    }
}
