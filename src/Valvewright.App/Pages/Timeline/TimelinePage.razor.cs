using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Components;
using NodaTime.Text;
using Valvewright.App.Parts;
using Valvewright.App.Shelf;
using Valvewright.Files.Texts;
using Valvewright.Files.Timelines;

namespace Valvewright.App.Pages.Timeline;

/// <summary>What the timeline does.</summary>
public sealed partial class TimelinePage
{
    private const int UsualDays = 14;
    private OpenedSite? opened;
    private TimelineAsked? asked;
    private SiteWaterings? waterings;
    private Chart? days;
    private ListOf<Chart> flows = [];
    private LocalDate today;
    private LocalDate? next;
    private string? trouble;

    private void Opened(OpenedSite site)
    {
        opened = site;
        today = Clock.GetCurrentInstant().InZone(site.Site.Zone()).Date;
        asked ??= new TimelineAsked(today, UsualDays, null, null, Standing.AsPlanned, 2, 0);
        Follow();
    }

    private static IEnumerable<int> Percents(OpenedSite site) =>
        site.Site.Controllers.SelectMany(c => c.Profile.Percent.Settings()).Distinct().Order();

    private void Take(TimelineAsked changed)
    {
        (asked, trouble) = (changed, null);
        Follow();
    }

    private void From(ChangeEventArgs change)
    {
        if (LocalDatePattern.Iso.Parse(Of(change)) is { Success: true, Value.Year: >= 1990 and <= 2190 } date)
        {
            Take(asked! with { From = date.Value });
        }
        else
        {
            trouble = T["timeline.noDate"];
        }
    }

    private void Days(ChangeEventArgs change) =>
        Take(asked! with { Days = Math.Clamp(Number(Of(change)) ?? UsualDays, 1, TimelineAsked.Most) });

    private void Follow()
    {
        if (opened?.BestPlan is not { } plan || asked is null)
        {
            return;
        }

        waterings = asked.Follow(opened.Site, plan.Saved.Plan);
        next = waterings.Waterings.Count == 0 ? asked.NextOpening(opened.Site, plan.Saved.Plan) : null;
        days = TimelineCharts.Days(opened.Site, waterings, opened.Say, T);
        flows = opened.Site.Supplies.Where(s => waterings.Waterings.Any(w => w.Supply == s.Name))
            .Select(s => TimelineCharts.Flow(opened.Site, waterings, s, opened.Say, T)).ToListOf();
    }

    private string Summary(OpenedSite site)
    {
        double litres = site.Site.Supplies.Sum(s => SupplyFlow.Litres(waterings!, s.Name, waterings!.From, waterings.To));
        return waterings!.Waterings.Count == 0
            ? T.Fill("timeline.nothing", ("from", site.Say.Date(waterings.From)), ("to", site.Say.Date(waterings.To)))
            : T.Fill("timeline.summary", ("from", site.Say.Date(waterings.From)), ("to", site.Say.Date(waterings.To)), (
                "n", waterings.Waterings.Count.ToString("#,0", CultureInfo.InvariantCulture)), ("volume", site.Say.Volume(litres / 1000)));
    }

    private Task SaveCalendar() =>
        Device.SaveAsync(Name("ics"), "text/calendar", Encoding.UTF8.GetBytes(TimelineCalendar.Write(waterings!, T.All.Language)));

    private Task SaveTable() =>
        Device.SaveAsync(Name("csv"), "text/csv", Encoding.UTF8.GetBytes(TimelineCsv.Write(waterings!, T.All.Language)));

    private string Name(string ending) => $"timeline-{asked!.From:uuuu-MM-dd}-{asked.To:uuuu-MM-dd}.{ending}";
}
