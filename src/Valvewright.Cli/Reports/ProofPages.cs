using System.Text.RegularExpressions;
using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Cli.Reports;

/// <summary>A proof as text.</summary>
internal static partial class ProofPages
{
    private const int NextShown = 10;
    private const int BreachesShown = 20;

    /// <summary>Uniformity of the low quarter below which sprinklers are repaired before anything else.</summary>
    private const double RepairBelow = 0.65;

    /// <summary>The proof; the ways of watering zone by zone and the next waterings only where all is asked for.</summary>
    public static void Write(Sheet sheet, Site site, ProofReport report, bool all)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        sheet.Heading("Proof");
        Outcome(sheet, report);
        Rules(sheet, words, report);
        Zones(sheet, words, report);
        Supplies(sheet, words, report);
        Comparison(sheet, words, report);
        if (all)
        {
            ZoneByZone(sheet, report, words);
            Next(sheet, words, report);
        }
    }

    /// <summary>Programs that a site has: whether they pass, the rules and the zones.</summary>
    public static void Found(Sheet sheet, Site site, ProofReport report)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        sheet.Heading("Programs as found");
        sheet.Say(report.Verdict.Passed ? "These programs pass. No rule is broken, and every zone gets enough water."
            : "These programs FAIL the proof.");
        Rules(sheet, words, report);
        Zones(sheet, words, report);
    }

    /// <summary>What a season is judged by: the verdict, the zones, and the comparison.</summary>
    public static void Season(Sheet sheet, Site site, ProofReport report)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        sheet.Heading("Proof");
        Outcome(sheet, report);
        Rules(sheet, words, report);
        Zones(sheet, words, report);
        Comparison(sheet, words, report);
    }

    private static void Rules(Sheet sheet, SiteWords words, ProofReport report)
    {
        sheet.Say();
        (string from, string to) = (words.Date(report.RulesFrom), words.Date(report.RulesTo));
        sheet.Say(report.Breaches.Count == 0
            ? (Sentence)$"Rules: none broken on any day from {from} to {to}."
            : (Sentence)$"Rules: {report.Breaches.Count} broken, checked on every day from {from} to {to}:");
        foreach (Breach breach in report.Breaches.Take(BreachesShown))
        {
            string worst = breach.Worst is { } figure ? $": {words.Figure(figure)}{(breach.Count > 1 ? words.In(" at worst") : "")}" : "";
            string first = breach.FirstAt is not { } at ? ""
                : breach.Count > 1 ? words.In($" First on {words.Date(at.Date)} at {words.Time(at.TimeOfDay)}, {breach.Count} times.")
                : words.In($" First on {words.Date(at.Date)} at {words.Time(at.TimeOfDay)}.");
            sheet.Say($"  - {words.Place(breach.Where)}: {breach.What}{worst}.{first}", 2);
        }

        if (report.Breaches.Count > BreachesShown)
        {
            sheet.Say($"  and {report.Breaches.Count - BreachesShown} more; --json shows all.");
        }
    }

    private static void Zones(Sheet sheet, SiteWords words, ProofReport report)
    {
        sheet.Say();
        sheet.Say(report.Replayed.Count == 1
            ? (Sentence)$"Water per year, weather of {report.Replayed[0].From.Year} ({words.DepthUnit}):"
            : (Sentence)$"Water per year, {report.Replayed.Count} years of weather from {report.Replayed[0].From.Year} to {report.Replayed[^1].To.Year} ({words.DepthUnit}):");
        sheet.Say();
        Table table = new("Zone", ">Applied", ">Minimum", ">Auditor", ">Use met", ">Driest spot", ">Longest dry", ">Runoff", ">Drainage");
        foreach (IGrouping<string, ZoneProof> controller in report.Zones.GroupBy(z => z.Controller))
        {
            table.Row(controller.Key, "", "", "", "", "", "", "", "");
            foreach (ZoneProof zone in controller)
            {
                table.Row(
                    $" {zone.Station} {zone.Zone}", words.Depth(zone.AppliedMm), words.Depth(zone.MinimumMm), words.Depth(zone.AuditorMm),
                        words.Share(zone.UseMet),
                    words.Share(zone.DriestUseMet), $"{zone.LongestDryDays} d", words.Depth(zone.RunoffMm), words.Depth(zone.DrainageMm));
            }
        }

        sheet.Show(table);
        sheet.Say();
        sheet.Say("Minimum: perfect foresight on an evenly watered zone. Auditor: net requirement x run-time multiplier / losses. Use " +
            "met: share of plant use that the low quarter gets.");
        foreach (ZoneProof zone in report.Zones.Where(z => z.DaysAYear < 360))
        {
            sheet.Say($"{zone.Controller}, {zone.Zone}: only the {SiteWords.Number(zone.DaysAYear, 0)} days after sowing, by the hour.", 2);
        }

        foreach (ZoneProof zone in report.Seedbeds)
        {
            sheet.Say(
                $"{zone.Controller}, {zone.Zone}: counted as the lawn it becomes. As a seedbed, for {
                    SiteWords.Number(zone.DaysAYear, 0)} days by the hour, it gets {words.Depth(zone.AppliedMm)} {words.DepthUnit} and {
                    words.Share(zone.UseMet)} of its use.",
                2);
        }

        Shortfalls(sheet, words, report);
        foreach (ZoneProof zone in report.Zones.Where(z => z.Uniformity < RepairBelow))
        {
            double saved = zone.AppliedMm * (
                1 - (LowQuarter.RunTimeMultiplier(RepairBelow + 0.1) / LowQuarter.RunTimeMultiplier(zone.Uniformity)));
            sheet.Say(
                $"  - {zone.Controller}, {zone.Zone}: uniformity is {words.Share(zone.Uniformity)}. Repair or adjust the sprinklers first: {words.Share(RepairBelow + 0.1)} would save about {words.Depth(saved)} {words.DepthUnit} per year.", 2);
        }
    }

    private static void Supplies(Sheet sheet, SiteWords words, ProofReport report)
    {
        sheet.Say();
        foreach (SupplyProof supply in report.Supplies)
        {
            sheet.Say(supply.Peak is { } peak
                ? (Sentence)$"{supply.Supply}: peak flow {words.Flow(peak.Lpm)} of {words.Flow(supply.LimitLpm)}; longest day {words.Date(supply.BusiestDay!.Value)}, {SiteWords.Number(supply.HoursOnBusiestDay, 1)} h."
                : (Sentence)$"{supply.Supply}: not used.", 2);
            if (supply.InDoubt is { } doubt)
            {
                sheet.Say(
                    $"  {words.Percent(100 * doubt.Share, 0)} of its watering falls after midnight, on a date the rule does not name (first {words.Date(doubt.FirstAt.Date)}). Ask who made the rule which date those hours belong to.", 2);
            }
        }

        foreach (Workload load in report.Workloads)
        {
            (string hours, string pulses) = (SiteWords.Number(load.HoursPerYear, 0), SiteWords.Number(load.PulsesPerYear, 0));
            sheet.Say(double.IsNaN(load.BatteryMahPerYear)
                ? (Sentence)$"{load.Controller}: {hours} h of watering and {pulses} valve pulses per year."
                : (Sentence)$"{load.Controller}: {hours} h of watering, {pulses} valve pulses and {SiteWords.Number(load.BatteryMahPerYear, 0)} mAh from the battery per year.", 2);
        }
    }

    private static void Comparison(Sheet sheet, SiteWords words, ProofReport report)
    {
        sheet.Heading("Comparison on the same weather");
        Table table = new("", $">Water {words.VolumeUnit}", ">Ratio", ">Use met", ">Driest zone");
        double minimum = report.Rulers.MinimumM3;
        string Ratio(double water) => minimum > 0 ? SiteWords.Number(water / minimum, 2) : "-";
        table.Row(sheet.In("minimum (perfect foresight)"), words.Volume(minimum), Ratio(minimum), words.Percent(100), words.Percent(100));
        foreach (Practice practice in report.Comparison)
        {
            table.Row(sheet.In(Way(practice)), words.Volume(practice.CubicMetresPerYear), Ratio(practice.CubicMetresPerYear),
                words.Share(practice.UseMet), words.Share(practice.LeastUseMet));
        }

        table.Row(sheet.In("auditor's schedule"), words.Volume(report.Rulers.AuditorM3), Ratio(report.Rulers.AuditorM3), "-", "-");
        table.Row("ETWU (MWELO)", words.Volume(report.Rulers.EstimatedUseM3), Ratio(report.Rulers.EstimatedUseM3), "-", "-");
        table.Row("MAWA (MWELO)", words.Volume(report.Rulers.AllowanceM3), Ratio(report.Rulers.AllowanceM3), "-", "-");
        sheet.Show(table);
        sheet.Say();
        sheet.Say("Ratio: water / minimum. Use met: share of plant use that the low quarters get, mean of the site, then of the zone " +
            "that gets least.");
    }

    private static void ZoneByZone(Sheet sheet, ProofReport report, SiteWords words)
    {
        sheet.Heading("Comparison by zone");
        sheet.Say("Water ratio, then use met:");
        sheet.Say();
        string[] names = [.. report.Comparison.Select(p => sheet.In(p.ShortName))];
        Table zones = new(["Zone", .. names.Select(n => (Sentence)(">" + n)), .. names.Select(n => (Sentence)(">" + n))]);
        string[] blank = [.. Enumerable.Repeat("", 2 * names.Length)];
        for (int i = 0; i < report.Zones.Count; i++)
        {
            ZoneProof[] ways = [.. report.Comparison.Select(p => p.Zones[i])];
            if (i == 0 || report.Zones[i - 1].Controller != ways[0].Controller)
            {
                zones.Row([ways[0].Controller, .. blank]);
            }

            zones.Row([$" {ways[0].Station} {ways[0].Zone}", .. ways.Select(w => SiteWords.Number(w.WaterRatio, 2)),
                .. ways.Select(w => words.Share(w.UseMet))]);
        }

        sheet.Show(zones);
    }

    private static void Next(Sheet sheet, SiteWords words, ProofReport report)
    {
        sheet.Heading("Next waterings (local time)");
        if (report.Next.Count == 0)
        {
            sheet.Say("None.");
            return;
        }

        Table table = new("Date", "On", "Off", "Controller", "Program", "Stations");
        foreach (Watering watering in report.Next.OrderBy(w => w.Opens).ThenBy(w => w.Controller, StringComparer.Ordinal).Take(NextShown))
        {
            table.Row(
                words.Date(watering.Opens.Date), words.Time(new LocalTime(watering.Opens.Hour, watering.Opens.Minute)),
                    words.TimeBy(watering.Closes.TimeOfDay), watering.Controller, watering.Program.ToString(),
                string.Join(" ", watering.Stations.Select(s => s.Station)));
        }

        sheet.Show(table);
    }

    /// <summary>What a way of watering is called; the plan carries its number of visits.</summary>
    private static Sentence Way(Practice practice) => PlanVisits().Match(practice.Name) is not { Success: true } plan ? practice.Name
        : plan.Groups[1].Value == "1" ? (Sentence)"this plan, 1 visit" : (Sentence)$"this plan, {plan.Groups[1].Value} visits";

    [GeneratedRegex("^this plan, ([0-9]+) visits?$")]
    private static partial Regex PlanVisits();
}
