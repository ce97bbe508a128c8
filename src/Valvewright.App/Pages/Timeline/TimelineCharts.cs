using Valvewright.App.Parts;
using Valvewright.App.Texts;
using Valvewright.Engine.Supply;
using Valvewright.Files.Texts;
using Valvewright.Files.Timelines;

namespace Valvewright.App.Pages.Timeline;

/// <summary>The pictures of a timeline: what is open when, and what that takes from each supply.</summary>
public static class TimelineCharts
{
    /// <summary>More lanes make no picture.</summary>
    private const int MostLanes = 72;

    private const int MostRows = 600;
    private const int MinutesOfDay = 1440;
    private const int Series = 5;

    /// <summary>Days down, hours across, a lane for each controller.</summary>
    public static Chart Days(Site site, SiteWaterings waterings, SiteWords say, PageWords words)
    {
        string[] controllers = [.. site.Controllers.Select(c => c.Name).Where(c => waterings.Waterings.Any(w => w.Controller == c))];
        int days = Period.DaysBetween(waterings.From, waterings.To) + 1;
        int shown = Math.Min(days, Math.Max(1, MostLanes / Math.Max(1, controllers.Length)));
        List<string> lanes = [];
        for (int day = 0; day < shown; day++)
        {
            LocalDate date = waterings.From.PlusDays(day);
            string name = $"{words.Common[$"day.{(int)date.DayOfWeek}"]} {date.Day} {words.Common[$"month.{date.Month}"]}";
            lanes.AddRange(controllers.Length < 2 ? [name] : controllers.Select((c, i) => i == 0 ? $"{name} · {c}" : c));
        }

        DateTimeZone zone = site.Zone();
        ILookup<char, (int Lane, double From, double To)> spans = waterings.Waterings
            .SelectMany(w => Parts(w, zone).Select(
                p => (w.Program, Day: Period.DaysBetween(waterings.From, p.Date), Controller: Array.IndexOf(controllers, w.Controller),
                    p.From, p.To)))
            .Where(p => p.Day >= 0 && p.Day < shown)
            .ToLookup(p => p.Program, p => ((p.Day * Math.Max(1, controllers.Length)) + p.Controller, p.From, p.To));
        ListOf<Layer> layers = spans.OrderBy(s => s.Key).Select(s => new Layer(
            LayerKind.Spans, words.Fill("readback.program", ("letter", s.Key)), 1 + ((s.Key - 'A') % Series),
                s.Select(p => p.From).ToListOf(), s.Select(p => (double)p.Lane).ToListOf())
        {
            X2 = s.Select(p => p.To).ToListOf(),
        }).ToListOf();
        return new Chart(
            words["timeline.days"], words.Count("timeline.days.says", waterings.Waterings.Count) + (
                shown < days ? " " + words.Fill("timeline.days.some", ("n", shown), ("of", days)) : ""),
            words["timeline.hours"], "", layers, Table(waterings, zone, say, words))
        {
            Across = Across.Hour, Lanes = lanes.ToListOf(),
        };
    }

    /// <summary>The most that is taken from a supply at each time of day, against what it can give.</summary>
    public static Chart Flow(Site site, SiteWaterings waterings, WaterSupply supply, SiteWords say, PageWords words)
    {
        double[] most = MostByMinute(site, waterings, supply.Name);
        List<double> x = [], y = [];
        for (int minute = 0; minute <= MinutesOfDay; minute++)
        {
            double now = minute < MinutesOfDay ? most[minute] : most[^1];
            if (minute is 0 or MinutesOfDay || now != most[minute - 1])
            {
                x.Add(minute / 60.0);
                y.Add(say.FlowNumber(now));
            }
        }

        double largest = most.Max();
        Layer limit = new(LayerKind.Rule, words["timeline.limit"], 2, [], [say.FlowNumber(supply.FlowLpm)]);
        ListOf<ListOf<string>> rows = x.Select(
            (hour, i) => (ListOf<string>)[say.Time(LocalTime.FromMinutesSinceMidnight((int)Math.Round(hour * 60) % MinutesOfDay)),
                SiteWords.Number(y[i], 1), SiteWords.Number(say.FlowNumber(supply.FlowLpm), 1)]).ToListOf();
        return new Chart(
            words.Fill("timeline.flow", ("supply", supply.Name)),
            words.Fill(largest > supply.FlowLpm + 1e-6 ? "timeline.flow.over" : "timeline.flow.within", ("most", say.Flow(largest)),
                ("limit", say.Flow(supply.FlowLpm))),
            words["timeline.hours"], $"{words["timeline.flow.axis"]}, {say.FlowUnit}",
            [new Layer(LayerKind.Steps, words["timeline.taken"], 1, x.ToListOf(), y.ToListOf()), limit],
            new ChartTable(
                [words["timeline.from"], $"{words["timeline.taken"]}, {say.FlowUnit}", $"{words["timeline.limit"]}, {say.FlowUnit}"], rows))
        {
            Across = Across.Hour, Shape = 0.3,
        };
    }

    /// <summary>The largest flow in each minute of the day, over all days, L/min.</summary>
    internal static double[] MostByMinute(Site site, SiteWaterings waterings, string supply)
    {
        double[] most = new double[MinutesOfDay];
        DateTimeZone zone = site.Zone();
        foreach (FlowStep step in SupplyFlow.Of(waterings, supply))
        {
            LocalTime from = step.From.InZone(zone).TimeOfDay;
            double length = (step.To - step.From).TotalMinutes;
            int first = (from.Hour * 60) + from.Minute, count = (int)Math.Ceiling(length + (from.Second / 60.0));
            for (int i = 0; i < Math.Min(count, MinutesOfDay); i++)
            {
                int minute = (first + i) % MinutesOfDay;
                most[minute] = Math.Max(most[minute], step.FlowLpm);
            }
        }

        return most;
    }

    /// <summary>A watering day by day, in hours of the site's day.</summary>
    internal static IEnumerable<(LocalDate Date, double From, double To)> Parts(Watering watering, DateTimeZone zone)
    {
        LocalDateTime opens = watering.Opens.InZone(zone).LocalDateTime, closes = watering.Closes.InZone(zone).LocalDateTime;
        for (LocalDate date = opens.Date; date <= closes.Date; date = date.PlusDays(1))
        {
            double from = date == opens.Date ? Hours(opens.TimeOfDay) : 0, to = date == closes.Date ? Hours(closes.TimeOfDay) : 24;
            // The doubled hour of a clock change runs backwards on the wall: its length is shown from where it began.
            to = to < from ? Math.Min(24, from + (watering.Seconds / 3600.0)) : to;
            if (to > from)
            {
                yield return (date, from, to);
            }
        }
    }

    private static double Hours(LocalTime time) => time.TickOfDay / (double)NodaConstants.TicksPerHour;

    private static ChartTable Table(SiteWaterings waterings, DateTimeZone zone, SiteWords say, PageWords words) => new(
        [words["timeline.day"], words["timeline.opens"], words["timeline.closes"], words["visits.controller"], words["timeline.program"],
            words["timeline.station"], words["timeline.zone"], $"{words["timeline.water"]}, {(say.IsUs ? "gal" : "L")}"],
        waterings.Waterings.Take(MostRows).Select(w => (ListOf<string>)
        [
            say.Date(w.Opens.InZone(zone).Date), say.Time(w.Opens.InZone(zone).TimeOfDay), say.Time(w.Closes.InZone(zone).TimeOfDay),
                w.Controller, w.Program.ToString(), w.Station.ToString(System.Globalization.CultureInfo.InvariantCulture), w.Zone,
            SiteWords.Number(say.IsUs ? say.VolumeNumber(w.Litres / 1000) : w.Litres, 0),
        ]).ToListOf());
}
