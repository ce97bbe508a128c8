using NodaTime;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather.Gaps;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;
using Valvewright.Work;

namespace Valvewright.Cli.Reports;

/// <summary>What went into a plan, and the plan, as text.</summary>
internal static class PlanPages
{
    /// <summary>The site, and what is to be asked about it.</summary>
    public static void Title(Sheet sheet, SiteFile file)
    {
        Site site = file.Site;
        sheet.Heading(site.Name);
        sheet.Say($"{Count(site.Controllers.Count, "controller")}, {Count(site.Controllers.Sum(c => c.Zones.Count), "zone")}, {Count(site.Supplies.Count, "supply", "supplies")}; {site.TimeZone}.");
        foreach (Problem question in file.Questions)
        {
            sheet.Say($"Question: {question}", 2);
        }
    }

    /// <summary>The weather, and what was assumed: a line a rule, or each with its zones and its reason.</summary>
    public static void Inputs(Sheet sheet, SiteYears years, bool allAssumed)
    {
        Site site = years.Site;
        Weather(sheet, years);
        sheet.Heading("Assumed, for want of a survey");
        if (site.Assumptions.Count == 0)
        {
            sheet.Say("Nothing.");
        }
        else if (allAssumed)
        {
            foreach (string line in AssumptionLines.Of(site))
            {
                sheet.Say($"- {line}", 2);
            }
        }
        else
        {
            sheet.Show(AssumptionLines.InShort(site));
            sheet.Say();
            sheet.Say("--assumed shows where, and what each figure rests on.");
        }
    }

    /// <summary>What each zone wants.</summary>
    public static void Needs(Sheet sheet, Site site, ListOf<ZoneNeed> needs)
    {
        SiteWords words = SiteWords.Of(site);
        sheet.Heading("Needs");
        string depth = words.DepthUnit;
        Table table = new("zone", $">holds {depth}", ">bears days", ">times a day", ">cycle min", ">soak min", $">week {depth}", $">year {depth}", "season");
        foreach (IGrouping<string, ZoneNeed> controller in needs.GroupBy(n => n.Controller))
        {
            table.Row(controller.Key, "", "", "", "", "", "", "", "");
            foreach (ZoneNeed need in controller)
            {
                table.Row(
                    $" {need.Station} {need.Zone}",
                    words.FineDepth(need.ReadilyMm.Value),
                    SiteWords.Number(need.LongestGapDays.EightInTen, 0),
                    SiteWords.Number(need.WateringsPerDay.Value, 0),
                    need.LongestCycleSeconds is { } cycle ? $"{cycle / 60}" : "any",
                    need.SoakSeconds > 0 ? $"{(need.SoakSeconds + 59) / 60}" : "-",
                    words.FineDepth(need.PeakWeekMm.Value),
                    words.Depth(need.LeastWaterMm.Mean),
                    need.Season is { } season ? season == PeriodOfYear.WholeYear ? "all year" : $"{SiteWords.Date(season.From)}-{SiteWords.Date(season.To)}" : "rain is enough");
            }
        }

        sheet.Show(table);
        sheet.Say();
        sheet.Say("holds: water that may be used before the next watering. bears: days from full to that point at the hardest time of year, 8 years in 10. cycle: the longest before water runs off; soak: the wait before the next. week: gross depth in the week that asks most, 8 years in 10. year: least possible water, gross, mean year. season: when irrigation is asked for.");
    }

    /// <summary>What is keyed in.</summary>
    public static void Programs(Sheet sheet, Site site, Plan plan)
    {
        SiteWords words = SiteWords.Of(site);
        sheet.Heading("Programs");
        foreach (ControllerPlan own in plan.Controllers)
        {
            SiteController? controller = site.Controllers.FirstOrDefault(c => c.Name == own.Controller);
            sheet.Say($"{Printable.Of(own.Controller)} ({controller?.Profile.Name ?? "not in the survey"}): {SiteWords.Season(own)}", 2);
            foreach (Program program in own.Settings.Programs.OrderBy(p => p.Letter))
            {
                sheet.Say($"  {program.Letter}  {SiteWords.Days(program.Days)}, start {string.Join(", ", program.StartTimes.Order().Select(words.Time))}", 3);
                sheet.Say("     " + string.Join("; ", program.RunTimes.Select(r => $"{r.Station} {NameOf(controller, r.Station)} {SiteWords.Duration(r.Seconds)}").Select(SiteWords.Together)), 0);
            }

            if (own.Settings.Programs.Count == 0)
            {
                sheet.Say("  nothing to key in");
            }
        }

        if (site.Controllers.Any(c => !c.Profile.ClockKnowsDaylightSaving && new SiteClock(site.Zone(), c.Profile).SecondsBehind(new LocalDate(2026, 1, 1), new LocalDate(2026, 12, 31)).Any(s => s != 0)))
        {
            sheet.Say();
            sheet.Say("Times are the controllers' own: standard time all year where the clock knows nothing of daylight saving.");
        }
    }

    private static string NameOf(SiteController? controller, int station) => controller?.Zones.FirstOrDefault(z => z.Station == station)?.Name ?? "(not wired)";

    private static void Weather(Sheet sheet, SiteYears years)
    {
        SiteWords words = SiteWords.Of(years.Site);
        sheet.Heading("Weather");
        double span = years.Built.Climate.Days / 365.25;
        sheet.Say(years.Weather.Record!.Source);
        sheet.Say($"{years.Built.Climate.First:uuuu-MM-dd} to {years.Built.Climate.Last:uuuu-MM-dd}; a year has {words.Depth(years.Built.Climate.EtoMm.Sum() / span)} {words.DepthUnit} of ETo and {words.Depth(years.Built.Climate.RainMm.Sum() / span)} {words.DepthUnit} of rain.");
        sheet.Say(years.Split.Explanation);
        foreach (WeatherNote note in years.Weather.Notes.Where(n => n.Kind != WeatherNoteKind.Found))
        {
            sheet.Say($"- {note.Text.TrimEnd('.')}.", 2);
        }

        foreach (IGrouping<(WeatherVariable Variable, FillMethod Method), Gap> filled in years.Built.Gaps.Gaps.GroupBy(g => (g.Variable, g.Method)).Where(g => g.Key.Method != FillMethod.NotNeeded))
        {
            sheet.Say($"- {GapWords.Of(filled.Key.Variable)}: {Count(filled.Sum(g => g.Days), "day")} {GapWords.Of(filled.Key.Method)}.", 2);
        }
    }

    private static string Count(int number, string one, string? many = null) => number == 1 ? $"1 {one}" : $"{number} {many ?? one + "s"}";
}
