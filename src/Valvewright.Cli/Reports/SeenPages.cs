using System.Globalization;
using Valvewright.Cli.Output;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Checks.Seen;
using Valvewright.Engine.Survey;

namespace Valvewright.Cli.Reports;

/// <summary>What explains what was seen, as text.</summary>
internal static class SeenPages
{
    public static void Write(Sheet sheet, Site site, SeenText seen, SymptomResult symptoms, CheckResult check)
    {
        SiteWords words = SiteWords.Of(site);
        CheckPages.Doubts(sheet, "what was seen", seen.Doubts);
        sheet.Heading("Seen");
        foreach (string line in seen.Observations.Select(o => InWords(o, words)).DefaultIfEmpty("nothing understood"))
        {
            sheet.Say(line, 3);
        }

        if (seen.Observations.Count == 0)
        {
            return;
        }

        sheet.Heading(symptoms.Explanations.Count switch { 0 => "Nothing explains it", 1 => "1 explanation", var n => $"{n} explanations" });
        int number = 0;
        foreach (Explanation explanation in symptoms.Explanations)
        {
            Write(sheet, words, site, explanation, ++number, check);
        }

        sheet.Say();
        sheet.Say(string.Create(
            CultureInfo.InvariantCulture,
            $"{symptoms.Tried:#,0} slips and pairs of slips were emulated; those above would do exactly what was seen. The shares go by how common slips are, not by measurement. Where the settings turn out right, it is no setting: look at valve, wire, battery and supply."));
    }

    private static void Write(Sheet sheet, SiteWords words, Site site, Explanation explanation, int number, CheckResult check)
    {
        string share = explanation.Share < 0.01 ? "less than 1 %" : string.Create(CultureInfo.InvariantCulture, $"{100 * explanation.Share:0} %");
        if (number > 1)
        {
            sheet.Say();
        }

        if (explanation.Slips.Count == 0)
        {
            sheet.Say($"{number}. {(check.Findings.Count > 0 ? "What was read does it, as found above." : check.AgainstPlan ? "It does as planned." : "It does as it is set.")} ({share})", 3);
            return;
        }

        for (int i = 0; i < explanation.Slips.Count; i++)
        {
            Finding slip = explanation.Slips[i];
            sheet.Say($"{(i == 0 ? $"{number}." : "   and:")} {slip.Explanation}{(i == 0 ? $" ({share})" : "")}", 3);
            foreach (string change in slip.MendInWords)
            {
                sheet.Say($"   Mend: {change}", 3);
            }
        }
    }

    private static string InWords(Observation seen, SiteWords words) => seen switch
    {
        RanAt s => $"{Station(s.Station)} {(s.Ran ? "ran" : "did not run")} at {words.Time(s.Time)}{(s.Weekday is { } day ? $" on the last {day}" : "")}",
        TimesADay s => $"{Station(s.Station)} ran {s.Times} time{(s.Times == 1 ? "" : "s")} a {(s.Night ? "night" : "day")}",
        NothingFor { Days: null } s => $"{Station(s.Station)} never ran",
        NothingFor s => $"{Station(s.Station)} did not run for {s.Days} days",
        RanOnDates s => $"{Station(s.Station)} ran on these dates of the month, one after the other: {string.Join(", ", s.Dates)}",
        RanOn s => $"{Station(s.Station)} {(s.Ran ? "ran" : "does not run")} on {s.Weekday}",
        RanDaily s => $"{Station(s.Station)} runs every day",
        RunsFor s => $"{Station(s.Station)} runs for {s.Minutes} minutes at a time",
        _ => seen.ToString(),
    };

    private static string Station(int station) => station == 0 ? "it" : $"station {station}";
}
