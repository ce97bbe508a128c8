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
        LocalDate Under(Watering w) => w.CarriedIn ? waterings.From.PlusDays(-1) : w.Opens.InZone(zone).Date;
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
                    w.Program.ToString(),
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
            sheet.Say($"{w.Controller}, station {w.Station}{(w.Zone.Length > 0 ? $" ({w.Zone})" : "")}: {SiteWords.Date(opens.Date)} at {words.Time(opens.TimeOfDay)}, for {SiteWords.Duration(w.Seconds)}, program {w.Program}.{display}", 2);
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

    private static void Supplies(Sheet sheet, Site site, SiteWords words, SiteWaterings waterings)
    {
        sheet.Say();
        Table table = new("supply", ">" + words.VolumeUnit, ">largest flow", ">limit");
        foreach (WaterSupply supply in site.Supplies)
        {
            double largest = SupplyFlow.Of(waterings, supply.Name).Select(s => s.FlowLpm).DefaultIfEmpty(0).Max();
            double litres = waterings.Waterings.Where(w => w.Supply == supply.Name && !w.CarriedIn).Sum(w => w.Litres);
            table.Row(supply.Name, words.Volume(litres / 1000), words.Flow(largest), words.Flow(supply.FlowLpm));
        }

        sheet.Show(table);
    }

    private static void Missed(Sheet sheet, SiteWords words, DateTimeZone zone, SiteWaterings waterings)
    {
        foreach (MissedStart missed in waterings.MissedStarts)
        {
            LocalDateTime at = missed.DueAt.InZone(zone).LocalDateTime;
            sheet.Say($"Not followed: {missed.Controller}, program {missed.Program}, {SiteWords.Date(at.Date)} at {words.Time(at.TimeOfDay)}: {Why(missed.Reason)}.", 2);
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
