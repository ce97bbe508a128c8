using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Cli.Reports;

/// <summary>A proof as text.</summary>
internal static class ProofPages
{
    private const int NextShown = 10;
    private const int BreachesShown = 20;

    /// <summary>Uniformity of the low quarter below which sprinklers are repaired before anything else.</summary>
    private const double RepairBelow = 0.65;

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

    /// <summary>Programs that a site has: whether they pass, the rules and the zones.</summary>
    public static void Found(Sheet sheet, Site site, ProofReport report)
    {
        SiteWords words = SiteWords.Of(site);
        sheet.Heading("As found, on weather not seen");
        sheet.Say(report.Verdict.Passed ? "These programs pass. No rule is broken, and every zone gets enough water."
            : "These programs FAIL the proof.");
        Rules(sheet, words, report);
        Zones(sheet, words, report);
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
        ? "The plan passes. No rule is broken, and every zone gets enough water."
        : "The plan FAILS its proof.");

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
        sheet.Say($"Water per year on {Years(report.Replayed)} ({words.DepthUnit}):");
        sheet.Say();
        Table table = new("zone", ">plan", ">minimum", ">auditor", ">use met", ">driest spot", ">longest dry", ">run-off", ">drained");
        foreach (IGrouping<string, ZoneProof> controller in report.Zones.GroupBy(z => z.Controller))
        {
            table.Row(controller.Key, "", "", "", "", "", "", "", "");
            foreach (ZoneProof zone in controller)
            {
                table.Row(
                    $" {zone.Station} {zone.Zone}", words.Depth(zone.AppliedMm), words.Depth(zone.MinimumMm), words.Depth(zone.AuditorMm), Percent(zone.UseMet),
                    Percent(zone.DriestUseMet), $"{zone.LongestDryDays} d", words.Depth(zone.RunoffMm), words.Depth(zone.DrainageMm));
            }
        }

        sheet.Show(table);
        sheet.Say();
        sheet.Say("minimum: perfect foresight on an evenly watered zone. auditor: net requirement x run-time multiplier / losses. use met: plant use that the low quarter gets.");
        foreach (ZoneProof zone in report.Zones.Where(z => z.DaysAYear < 360))
        {
            sheet.Say($"{zone.Controller}, {zone.Zone}: only the {SiteWords.Number(zone.DaysAYear, 0)} days after sowing, by the hour.", 2);
        }

        foreach (ZoneProof zone in report.Seedbeds)
        {
            sheet.Say(
                $"{zone.Controller}, {zone.Zone}: here the lawn that it becomes. As a seedbed, by the hour for "
                + $"{SiteWords.Number(zone.DaysAYear, 0)} days, it gets {words.Depth(zone.AppliedMm)} {words.DepthUnit} and {Percent(zone.UseMet)} of its use.",
                2);
        }

        foreach (ZoneProof zone in report.Zones.Concat(report.Seedbeds).Where(z => !z.IsServed))
        {
            sheet.Say($"  - {zone.Controller}, {zone.Zone}: the low quarter gets {Percent(zone.UseMet)} of its use; the goal is {Percent(zone.LeastUseMet)}.", 2);
        }

        foreach (ZoneProof zone in report.Zones.Where(z => z.Uniformity < RepairBelow))
        {
            double saved = zone.AppliedMm * (1 - (LowQuarter.RunTimeMultiplier(RepairBelow + 0.1) / LowQuarter.RunTimeMultiplier(zone.Uniformity)));
            sheet.Say(
                $"  - {zone.Controller}, {zone.Zone}: uniformity is {Percent(zone.Uniformity)}. Repair or adjust the sprinklers first: {Percent(RepairBelow + 0.1)} would save about {words.Depth(saved)} {words.DepthUnit} per year.", 2);
        }
    }

    private static string Percent(double part) => $"{SiteWords.Number(Math.Floor((1000 * part) + 1e-9) / 10, 0)}%";

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
        sheet.Say("Compared on the same weather:");
        sheet.Say();
        Table table = new("way of watering", $">water {words.VolumeUnit}", ">ratio", ">use met", ">driest zone");
        double minimum = report.Rulers.MinimumM3;
        string Ratio(double water) => minimum > 0 ? SiteWords.Number(water / minimum, 2) : "-";
        table.Row("minimum (perfect foresight)", words.Volume(minimum), Ratio(minimum), "100%", "100%");
        foreach (Practice practice in report.Comparison)
        {
            table.Row(practice.Name, words.Volume(practice.CubicMetresPerYear), Ratio(practice.CubicMetresPerYear), Percent(practice.UseMet), Percent(practice.LeastUseMet));
        }

        table.Row("auditor's schedule", words.Volume(report.Rulers.AuditorM3), Ratio(report.Rulers.AuditorM3), "-", "-");
        table.Row("ETWU (MWELO)", words.Volume(report.Rulers.EstimatedUseM3), Ratio(report.Rulers.EstimatedUseM3), "-", "-");
        table.Row("MAWA (MWELO)", words.Volume(report.Rulers.AllowanceM3), Ratio(report.Rulers.AllowanceM3), "-", "-");
        sheet.Show(table);
        sheet.Say();
        sheet.Say("ratio: water over the minimum. use met: plant use that the low quarters get, mean of the site, then of the zone that gets least.");
        sheet.Say();
        sheet.Say("Zone by zone, water ratio and use met:");
        sheet.Say();
        string[] names = [.. report.Comparison.Select(p => p.ShortName)];
        Table zones = new(["zone", .. names.Select(n => $">ratio {n}"), .. names.Select(n => $">met {n}")]);
        string[] blank = [.. Enumerable.Repeat("", 2 * names.Length)];
        for (int i = 0; i < report.Zones.Count; i++)
        {
            ZoneProof[] ways = [.. report.Comparison.Select(p => p.Zones[i])];
            if (i == 0 || report.Zones[i - 1].Controller != ways[0].Controller)
            {
                zones.Row([ways[0].Controller, .. blank]);
            }

            zones.Row([$" {ways[0].Station} {ways[0].Zone}", .. ways.Select(w => SiteWords.Number(w.WaterRatio, 2)), .. ways.Select(w => Percent(w.UseMet))]);
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
