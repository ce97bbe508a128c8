using Valvewright.Cli.Output;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Survey;

namespace Valvewright.Cli.Reports;

/// <summary>The verdict, and the zones that get too little.</summary>
internal static partial class ProofPages
{
    /// <summary>The verdict alone and, where it fails, why.</summary>
    public static void Verdict(Sheet sheet, Site site, ProofReport report)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        Outcome(sheet, report);
        if (report.Breaches.Count > 0) Rules(sheet, words, report);
        Shortfalls(sheet, words, report);
    }

    public static void Outcome(Sheet sheet, ProofReport report)
    {
        SiteWords words = new(default, default, sheet.Language);
        if (report.Verdict.Passed)
        {
            string least = words.Share(report.Zones.Count == 0 ? 1 : report.Zones.Min(z => z.LeastUseMet));
            int years = report.Replayed.Count;
            sheet.Say(years == 1
                ? (Sentence)($"Plan passes. No rule is broken, and the low quarter of every zone gets at least {least} of its plant "
                    + $"use (tested on 1 year of weather not used for planning).")
                : (Sentence)$"Plan passes. No rule is broken, and the low quarter of every zone gets at least {
                    least} of its plant use (tested on {years} years of weather not used for planning).");
        }
        else
        {
            sheet.Say("Plan FAILS.");
        }
    }

    private static void Shortfalls(Sheet sheet, SiteWords words, ProofReport report)
    {
        foreach (ZoneProof zone in report.Zones.Concat(report.Seedbeds).Where(z => !z.IsServed))
            sheet.Say(
                $"  - {zone.Controller}, {zone.Zone}: the low quarter gets {
                    words.Share(zone.UseMet)} of its use; the goal is {words.Share(zone.LeastUseMet)}.", 2);
    }
}
