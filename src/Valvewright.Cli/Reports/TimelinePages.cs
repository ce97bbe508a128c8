using NodaTime.Text;
using Valvewright.Cli.Output;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Supply;
using Valvewright.Files.Timelines;

namespace Valvewright.Cli.Reports;

/// <summary>A timeline as text: a table a date, then water and whatever was missed.</summary>
internal static class TimelinePages
{
    private static readonly YearMonthPattern Month = YearMonthPattern.CreateWithInvariantCulture("MMMM uuuu");

    /// <summary>The dates, every run of them unless they stand in a file, and the water.</summary>
    public static void Write(Sheet sheet, Site site, SiteWaterings waterings, bool everyRun)
    {
        SiteWords words = SiteWords.Of(site);
        DateTimeZone zone = site.Zone();
        sheet.Heading(waterings.From == waterings.To
            ? $"{site.Name}, {SiteWords.Date(waterings.From)}"
            : $"{site.Name}, {SiteWords.Date(waterings.From)} to {SiteWords.Date(waterings.To)}");
        if (everyRun)
        {
            Runs(sheet, site, words, waterings);
        }
        else
        {
            sheet.Say($"{waterings.Waterings.Count} runs.");
        }

        Supplies(sheet, site, words, waterings);
        Missed(sheet, words, zone, waterings);
    }

    private static void Runs(Sheet sheet, Site site, SiteWords words, SiteWaterings waterings)
    {
        DateTimeZone zone = site.Zone();
        sheet.Say($"Times are those people live by at the site ({site.TimeZone}). A run stands under the date on which it opens; + marks a closing on the next.");
        LocalDate Under(Watering w) => LocalDate.Max(w.Opens.InZone(zone).Date, waterings.From.PlusDays(-1));
        foreach (IGrouping<LocalDate, Watering> day in waterings.Waterings.GroupBy(Under))
        {
            sheet.Say();
            sheet.Say(day.Key < waterings.From ? "Left over from the day before" : SiteWords.Date(day.Key));
            Table table = new(">opens", ">closes", "controller", ">station", "zone", "program", ">min", ">" + (site.Units == UnitSystem.Metric ? "L" : "gal"));
            foreach (Watering w in day)
            {
                table.Row(
                    words.Time(w.Opens.InZone(zone).TimeOfDay),
                    words.Time(w.Closes.InZone(zone).TimeOfDay) + (w.Closes.InZone(zone).Date > w.Opens.InZone(zone).Date ? "+" : ""),
                    w.Controller,
                    $"{w.Station}",
                    w.Zone.Length > 0 ? w.Zone : "not wired",
                    w.Program == StationRun.ByHand ? "by hand" : w.Program.ToString(),
                    SiteWords.Number(w.Seconds / 60.0, w.Seconds % 60 == 0 ? 0 : 2),
                    Volume(site, w.Litres));
            }

            sheet.Show(table);
        }

        if (waterings.Waterings.Count == 0)
        {
            sheet.Say();
            sheet.Say("Nothing runs.");
        }
    }

    public static void Next(Sheet sheet, Site site, int station, LocalDate from, ListOf<Watering> next)
    {
        SiteWords words = SiteWords.Of(site);
        if (next.Count == 0)
        {
            sheet.Say($"Station {station} does not run within {TimelineQuestions.LookAheadDays} days from {SiteWords.Date(from)}.");
        }

        foreach (Watering w in next)
        {
            LocalDateTime opens = w.Opens.InZone(site.Zone()).LocalDateTime;
            string display = w.Shown == opens ? "" : $" Its display then shows {words.Time(w.Shown.TimeOfDay)}{(w.Shown.Date == opens.Date ? "" : $" of {SiteWords.Date(w.Shown.Date)}")}.";
            string by = w.Program == StationRun.ByHand ? "by hand" : $"program {w.Program}";
            string name = w.Zone.Length > 0 ? $" ({w.Zone})" : "";
            string when = $"{SiteWords.Date(opens.Date)} at {words.Time(opens.TimeOfDay)}";
            sheet.Say($"{w.Controller}, station {w.Station}{name}: {when}, for {SiteWords.Duration(w.Seconds)}, {by}.{display}", 2);
        }
    }

    public static void Water(Sheet sheet, Site site, YearMonth month, ListOf<MonthOfWater> water)
    {
        SiteWords words = SiteWords.Of(site);
        sheet.Heading($"{site.Name}, {Month.Format(month)}");
        Table table = new("supply", ">" + words.VolumeUnit, ">largest flow", ">limit");
        foreach (MonthOfWater supply in water)
        {
            table.Row(supply.Supply, words.Volume(supply.Litres / 1000), words.Flow(supply.LargestFlowLpm), words.Flow(supply.LimitLpm));
        }

        sheet.Show(table);
    }

    /// <summary>What to key in for a date without water.</summary>
    public static void Dry(Sheet sheet, Site site, LocalDate date, ListOf<DayWithoutWater> days)
    {
        SiteWords words = SiteWords.Of(site);
        DateTimeZone zone = site.Zone();
        string At(LocalDateTime time) => SiteWords.Together($"{SiteWords.Date(time.Date)}, {words.Time(time.TimeOfDay)}");
        sheet.Heading($"{site.Name}, no water on {SiteWords.Date(date)}");
        foreach (DayWithoutWater day in days)
        {
            if (day.Left.Count == 0)
            {
                sheet.Say($"{day.Controller}: nothing runs on this date. Leave it as it is.", 2);
                continue;
            }

            sheet.Say($"{day.Controller}:");
            sheet.Say($"  Before: switch it off after {At(day.OffAfter)} and before {At(day.OffBefore)}.", 4);
            string before = day.OnBefore is { } next ? $" and before {At(next)}, when it runs next" : "";
            sheet.Say($"  After: switch it on after {At(day.OnAfter)}{before}.", 4);
            if (day.HoldDays is { } hold)
            {
                sheet.Say(
                    $"  Or set a rain hold of {hold} days within the 24 hours before {At(day.OffBefore)}. "
                    + "It ends by itself at the hour at which you set it; starts due until then do not run.", 4);
            }

            foreach (Watering w in day.Left.Concat(day.AlsoLeft).OrderBy(w => w.Opens))
            {
                LocalDateTime opens = w.Opens.InZone(zone).LocalDateTime;
                string zoneName = w.Zone.Length > 0 ? $" ({w.Zone})" : "";
                sheet.Say($"  Left out: station {w.Station}{zoneName}, {At(opens)}, {SiteWords.Duration(w.Seconds)}.", 4);
            }
        }
    }

    private static void Supplies(Sheet sheet, Site site, SiteWords words, SiteWaterings waterings)
    {
        sheet.Say();
        Table table = new("supply", ">" + words.VolumeUnit, ">largest flow", ">limit");
        foreach (WaterSupply supply in site.Supplies)
        {
            double largest = SupplyFlow.Of(waterings, supply.Name).Select(s => s.FlowLpm).DefaultIfEmpty(0).Max();
            double litres = SupplyFlow.Litres(waterings, supply.Name, waterings.From, waterings.To);
            table.Row(supply.Name, words.Volume(litres / 1000), words.Flow(largest), words.Flow(supply.FlowLpm));
        }

        sheet.Show(table);
    }

    private static void Missed(Sheet sheet, SiteWords words, DateTimeZone zone, SiteWaterings waterings)
    {
        foreach (MissedStart missed in waterings.MissedStarts)
        {
            LocalDateTime at = missed.DueAt.InZone(zone).LocalDateTime;
            string what = missed.Program == StationRun.ByHand ? "run by hand" : $"program {missed.Program}";
            string when = $"{SiteWords.Date(at.Date)} at {words.Time(at.TimeOfDay)}";
            sheet.Say($"Not followed: {missed.Controller}, {what}, {when}: {Why(missed.Reason)}.", 2);
        }
    }

    private static string Why(LostReason reason) => reason switch
    {
        LostReason.Running => "another program was running",
        LostReason.AlreadyWaiting => "the program's last start was still waiting",
        LostReason.Off => "set to off",
        LostReason.RainHold => "rain hold",
        LostReason.SensorWet => "the rain sensor was wet",
        LostReason.NoPower => "no power",
        _ => "a run by hand took its turn",
    };

    private static string Volume(Site site, double litres) =>
        SiteWords.Number(site.Units == UnitSystem.Metric ? litres : litres / UsUnits.LitresPerGallon, 0);
}
