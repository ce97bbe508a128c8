using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Cli.Reports;

/// <summary>A proof as text.</summary>
internal static class ProofPages
{
    private const int NextShown = 10;
    private const int BreachesShown = 20;

    /// <summary>The whole proof.</summary>
    public static void Write(Sheet sheet, Site site, ProofReport report)
    {
        SiteWords words = SiteWords.Of(site);
        sheet.Heading("Proof");
        Outcome(sheet, report);
        Rules(sheet, words, report);
        Zones(sheet, words, report);
        Supplies(sheet, words, report);
        Comparison(sheet, words, report);
        Next(sheet, words, report);
    }

    /// <summary>What a season is judged by: the verdict, the zones, and the comparison.</summary>
    public static void Season(Sheet sheet, Site site, ProofReport report)
    {
        SiteWords words = SiteWords.Of(site);
        sheet.Heading("Proof");
        Outcome(sheet, report);
        Rules(sheet, words, report);
        Zones(sheet, words, report);
        Comparison(sheet, words, report);
    }

    public static void Outcome(Sheet sheet, ProofReport report) => sheet.Say(report.Verdict.Passed
        ? "The plan holds: every rule is kept, and every spot of every zone is served."
        : "The plan does NOT hold.");

    private static void Rules(Sheet sheet, SiteWords words, ProofReport report)
    {
        sheet.Say();
        string dates = $"every day from {SiteWords.Date(report.RulesFrom)} to {SiteWords.Date(report.RulesTo)}";
        sheet.Say(report.Breaches.Count == 0 ? $"Rules: no breach on {dates}." : $"Rules: {report.Breaches.Count} broken, checked on {dates}:");
        foreach (Breach breach in report.Breaches.Take(BreachesShown))
        {
            string often = breach.Count > 1 ? $", {breach.Count} times" : "";
            string worst = breach.Worst is { } figure ? $": {words.Figure(figure)}{(breach.Count > 1 ? " at worst" : "")}" : "";
            string first = breach.FirstAt is { } at ? $" First on {SiteWords.Date(at.Date)} at {words.Time(at.TimeOfDay)}{often}." : "";
            sheet.Say($"  - {breach.Where}: {breach.What}{worst}.{first}", 2);
        }

        if (report.Breaches.Count > BreachesShown)
        {
            sheet.Say($"  and {report.Breaches.Count - BreachesShown} more; --json shows all.");
        }
    }

    private static void Zones(Sheet sheet, SiteWords words, ProofReport report)
    {
        sheet.Say();
        sheet.Say($"Water on {Years(report.Replayed)}, depths a year ({words.DepthUnit}):");
        sheet.Say();
        Table table = new("zone", ">water", ">least", ">ratio", ">met %", ">worst spot", ">stress days", ">run-off", ">drained");
        foreach (IGrouping<string, ZoneProof> controller in report.Zones.GroupBy(z => z.Controller))
        {
            table.Row(controller.Key, "", "", "", "", "", "", "", "");
            foreach (ZoneProof zone in controller)
            {
                table.Row(
                    $" {zone.Station} {zone.Zone}", words.Depth(zone.AppliedMm), words.Depth(zone.LeastMm), SiteWords.Number(zone.WaterRatio, 2), SiteWords.Number(100 * zone.Adequacy, 0),
                    SiteWords.Number(100 * zone.WorstSpotAdequacy, 0), SiteWords.Number(zone.StressDays, 1), words.Depth(zone.RunoffMm), words.Depth(zone.DrainageMm));
            }
        }

        sheet.Show(table);
        sheet.Say();
        sheet.Say("least: the least possible water, by somebody who knows the weather to come. met: part of the plants' demand that was met, mean of the spots, then the spot that fares worst. stress: days past allowed depletion, weighted by depth.");
        foreach (ZoneProof zone in report.Zones.Where(z => z.DaysAYear < 360))
        {
            sheet.Say($"{zone.Controller}, {zone.Zone}: only the {SiteWords.Number(zone.DaysAYear, 0)} days after sowing, by the hour.", 2);
        }

        foreach (ZoneProof zone in report.Zones.Where(z => !z.IsServed))
        {
            sheet.Say($"  - {zone.Controller}, {zone.Zone}: the driest spot has {SiteWords.Number(100 * zone.WorstSpotAdequacy, 0)} % of its demand met; {SiteWords.Number(100 * Verdict.LeastAdequacy, 0)} % is wanted.", 2);
        }
    }

    private static void Supplies(Sheet sheet, SiteWords words, ProofReport report)
    {
        sheet.Say();
        foreach (SupplyProof supply in report.Supplies)
        {
            sheet.Say(supply.Peak is { } peak
                ? $"{supply.Supply}: at most {words.Flow(peak.Lpm)} of {words.Flow(supply.LimitLpm)} at any second; busiest day {SiteWords.Date(supply.BusiestDay!.Value)}, {SiteWords.Number(supply.HoursOnBusiestDay, 1)} h."
                : $"{supply.Supply}: not used.", 2);
            if (supply.InDoubt is { } doubt)
            {
                sheet.Say($"  {SiteWords.Number(100 * doubt.Share, 0)} % of its watering falls after midnight, on a date that the rule does not name (first {SiteWords.Date(doubt.FirstAt.Date)}). Ask whoever made the rule whether the hours after midnight belong to the date on which they begin.", 2);
            }
        }

        foreach (Workload load in report.Workloads)
        {
            string battery = double.IsNaN(load.BatteryMahPerYear) ? "" : $", {SiteWords.Number(load.BatteryMahPerYear, 0)} mAh from the battery";
            sheet.Say($"{load.Controller}: {SiteWords.Number(load.HoursPerYear, 0)} h of watering and {SiteWords.Number(load.PulsesPerYear, 0)} pulses a year{battery}.", 2);
        }
    }

    private static void Comparison(Sheet sheet, SiteWords words, ProofReport report)
    {
        sheet.Say();
        sheet.Say("Beside common practice on the same weather (docs/proof.md):");
        sheet.Say();
        Table table = new("way of watering", $">water {words.VolumeUnit}", ">ratio", ">stress days", ">worst spot");
        foreach (Practice practice in report.Comparison)
        {
            table.Row(practice.Name, words.Volume(practice.CubicMetresPerYear), SiteWords.Number(practice.WaterRatio, 2), SiteWords.Number(practice.StressDays, 1), SiteWords.Number(practice.WorstSpotStressDays, 1));
        }

        sheet.Show(table);
        sheet.Say();
        sheet.Say("ratio: water over the least possible. stress days: days past allowed depletion a year, mean of the site; worst spot: the same of the spot that fares worst.");
        sheet.Say();
        sheet.Say("Zone by zone, water ratio and stress days:");
        sheet.Say();
        string[] names = [.. report.Comparison.Select(p => p.ShortName)];
        Table zones = new(["zone", .. names.Select(n => $">ratio {n}"), .. names.Select(n => $">stress {n}")]);
        string[] blank = [.. Enumerable.Repeat("", 2 * names.Length)];
        for (int i = 0; i < report.Zones.Count; i++)
        {
            ZoneProof[] ways = [.. report.Comparison.Select(p => p.Zones[i])];
            if (i == 0 || report.Zones[i - 1].Controller != ways[0].Controller)
            {
                zones.Row([ways[0].Controller, .. blank]);
            }

            zones.Row([$" {ways[0].Station} {ways[0].Zone}", .. ways.Select(w => SiteWords.Number(w.WaterRatio, 2)), .. ways.Select(w => SiteWords.Number(w.StressDays, 1))]);
        }

        sheet.Show(zones);
    }

    private static void Next(Sheet sheet, SiteWords words, ProofReport report)
    {
        sheet.Say();
        if (report.Next.Count == 0)
        {
            sheet.Say("No watering is to be expected.");
            return;
        }

        sheet.Say("The next waterings to look for, in the time people live by:");
        sheet.Say();
        Table table = new("day", "opens", "closes", "controller", "program", "stations");
        foreach (Watering watering in report.Next.OrderBy(w => w.Opens).ThenBy(w => w.Controller, StringComparer.Ordinal).Take(NextShown))
        {
            table.Row(
                SiteWords.Date(watering.Opens.Date), words.Time(new LocalTime(watering.Opens.Hour, watering.Opens.Minute)), words.TimeBy(watering.Closes.TimeOfDay), watering.Controller, watering.Program.ToString(),
                string.Join(" ", watering.Stations.Select(s => s.Station)));
        }

        sheet.Show(table);
    }

    private static string Years(ListOf<ReplayedYear> years) =>
        years.Count == 1 ? $"{years[0].From.Year}" : $"{years.Count} years between {years[0].From.Year} and {years[^1].To.Year}";
}
