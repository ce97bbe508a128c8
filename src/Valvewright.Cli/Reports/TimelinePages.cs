using Valvewright.Cli.Output;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Supply;
using Valvewright.Files.Timelines;

namespace Valvewright.Cli.Reports;

/// <summary>A timeline as text: a table per date, then water and lost starts.</summary>
internal static class TimelinePages
{
    /// <summary>The dates, every run of them unless they are in a file, and the water.</summary>
    public static void Write(Sheet sheet, Site site, SiteWaterings waterings, bool everyRun)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        DateTimeZone zone = site.Zone();
        sheet.Heading(waterings.From == waterings.To
            ? (Sentence)$"{site.Name}, {words.Date(waterings.From)}"
            : (Sentence)$"{site.Name}, {words.Date(waterings.From)} to {words.Date(waterings.To)}");
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
        sheet.Say($"Local time at the site ({site.TimeZone}). Runs are listed by start date; + means it ends the next day.");
        LocalDate Under(Watering w) => LocalDate.Max(w.Opens.InZone(zone).Date, waterings.From.PlusDays(-1));
        foreach (IGrouping<LocalDate, Watering> day in waterings.Waterings.GroupBy(Under))
        {
            sheet.Say();
            sheet.Say(day.Key < waterings.From ? "Running since the day before" : (Sentence)$"{words.Date(day.Key)}");
            Table table = new(">On", ">Off", "Controller", ">Station", "Zone", "Program", ">min",
                ">" + (words.VolumeUnit == "gal" ? "gal" : "L"));
            foreach (Watering w in day)
            {
                table.Row(
                    words.Time(w.Opens.InZone(zone).TimeOfDay),
                    words.Time(w.Closes.InZone(zone).TimeOfDay) + (w.Closes.InZone(zone).Date > w.Opens.InZone(zone).Date ? "+" : ""),
                    w.Controller,
                    $"{w.Station}",
                    w.Zone.Length > 0 ? w.Zone : sheet.In("not wired"),
                    w.Program == StationRun.ByHand ? sheet.In("by hand") : w.Program.ToString(),
                    SiteWords.Number(w.Seconds / 60.0, w.Seconds % 60 == 0 ? 0 : 2),
                    words.Litres(w.Litres));
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
        SiteWords words = SiteWords.Of(site, sheet);
        if (next.Count == 0)
        {
            sheet.Say($"Station {station} has no run in the {TimelineQuestions.LookAheadDays} days from {words.Date(from)}.");
        }

        foreach (Watering w in next)
        {
            LocalDateTime opens = w.Opens.InZone(site.Zone()).LocalDateTime;
            string zone = w.Zone.Length > 0 ? $" ({w.Zone})" : "";
            string display = w.Shown == opens ? ""
                : w.Shown.Date == opens.Date ? words.In($" Controller clock: {words.Time(w.Shown.TimeOfDay)}.")
                : words.In($" Controller clock: {words.Time(w.Shown.TimeOfDay)} on {words.Date(w.Shown.Date)}.");
            Sentence by = w.Program == StationRun.ByHand ? (Sentence)"by hand" : (Sentence)$"program {w.Program}";
            sheet.Say(
                $"{w.Controller}, station {w.Station}{zone}: {words.Date(opens.Date)} at {words.Time(opens.TimeOfDay)}, for {SiteWords.Duration(w.Seconds)}, {by}.{display}", 2);
        }
    }

    public static void Water(Sheet sheet, Site site, YearMonth month, ListOf<MonthOfWater> water)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        sheet.Heading($"{site.Name}, {words.Month(month)}");
        Table table = new("Supply", ">" + words.VolumeUnit, ">Peak flow", ">Limit");
        foreach (MonthOfWater supply in water)
        {
            table.Row(supply.Supply, words.Volume(supply.Litres / 1000), words.Flow(supply.LargestFlowLpm), words.Flow(supply.LimitLpm));
        }

        sheet.Show(table);
    }

    /// <summary>What to set for a date without water.</summary>
    public static void Dry(Sheet sheet, Site site, LocalDate date, ListOf<DayWithoutWater> days)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        DateTimeZone zone = site.Zone();
        string At(LocalDateTime time) => SiteWords.Together($"{words.Date(time.Date)}, {words.Time(time.TimeOfDay)}");
        sheet.Heading($"{site.Name}, no water on {words.Date(date)}");
        foreach (DayWithoutWater day in days)
        {
            if (day.Left.Count == 0)
            {
                sheet.Say($"{day.Controller}: nothing runs on this date. Leave it as it is.", 2);
                continue;
            }

            sheet.Say($"{day.Controller}:");
            sheet.Say($"  Before: switch it off after {At(day.OffAfter)} and before {At(day.OffBefore)}.", 4);
            sheet.Say(day.OnBefore is { } next
                ? (Sentence)$"  After: switch it on after {At(day.OnAfter)} and before {At(next)}, when it runs next."
                : (Sentence)$"  After: switch it on after {At(day.OnAfter)}.", 4);
            if (day.HoldDays is { } hold)
            {
                sheet.Say(
                    $"  Or set a rain delay of {hold} days within the 24 hours before {At(day.OffBefore)}. It ends by itself at the hour at which you set it; starts due until then do not run.", 4);
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
        Table table = new("Supply", ">" + words.VolumeUnit, ">Peak flow", ">Limit");
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
            Sentence what = missed.Program == StationRun.ByHand ? (Sentence)"run by hand" : (Sentence)$"program {missed.Program}";
            sheet.Say(
                $"Start lost: {missed.Controller}, {what}, {words.Date(at.Date)} at {words.Time(at.TimeOfDay)}: {Why(missed.Reason)}.", 2);
        }
    }

    private static Sentence Why(LostReason reason) => reason switch
    {
        LostReason.Running => "another program was running",
        LostReason.AlreadyWaiting => "the program's last start was still waiting",
        LostReason.Off => "switched off",
        LostReason.RainHold => "rain delay",
        LostReason.SensorWet => "the rain sensor was wet",
        LostReason.NoPower => "no power",
        _ => "a manual run took its turn",
    };

}
