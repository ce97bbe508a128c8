using System.Globalization;
using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Files.Plans;

namespace Valvewright.Cli.Reports;

/// <summary>A check as text: what was doubtful first, then what is wrong, then what to ask.</summary>
internal static class CheckPages
{
    public static void Write(
        Sheet sheet, Site site, SiteController controller, string source, string? planFile, SavedPlan? saved, LocalDateTime at, ReadText read, CheckResult result)
    {
        SiteWords words = SiteWords.Of(site);
        sheet.Heading($"{site.Name}: {controller.Name}");
        sheet.Say($"{SiteWords.Date(at.Date)} at {words.Time(at.TimeOfDay)} site time, from {source}.");
        sheet.Say(planFile is null ? "There is no plan to compare with; the reading is judged by itself." : $"Compared with the plan {planFile}.");
        if (saved?.IsFor(site) == false)
        {
            sheet.Say("The survey has changed since this plan was made.");
        }

        if (planFile is not null && !result.AgainstPlan)
        {
            sheet.Say("The plan has no such controller; the reading is judged by itself.");
        }

        if (read.Reading == new Reading() && read.Doubts.Count == 0)
        {
            return;
        }

        Doubts(sheet, "the reading", read.Doubts);
        Understood(sheet, read);
        sheet.Heading(result.Findings.Count switch { 0 => "Nothing wrong in what was read", 1 => "1 finding", var n => $"{n} findings" });
        int number = 0;
        foreach (Finding finding in result.Findings)
        {
            Write(sheet, words, site, finding, ++number);
        }
    }

    /// <summary>What was doubtful in a text.</summary>
    public static void Doubts(Sheet sheet, string where, IReadOnlyCollection<Doubt> doubts)
    {
        if (doubts.Count == 0)
        {
            return;
        }

        sheet.Heading($"Doubtful in {where}: {doubts.Count}");
        foreach (Doubt doubt in doubts)
        {
            string taken = doubt.Taken.Length > 0 ? $" taken as {doubt.Taken}" : " left out";
            string otherwise = doubt.Otherwise.Length == 0 ? "" : doubt.Taken.Length > 0 ? $", could be {doubt.Otherwise}" : $", perhaps {doubt.Otherwise}";
            sheet.Say($"{doubt.Line}:{doubt.Column} \"{Printable.Of(doubt.Found)}\"{taken}{otherwise}. {doubt.Why}", 4);
        }
    }

    private static void Understood(Sheet sheet, ReadText read)
    {
        sheet.Heading("Understood");
        string[] lines = ReadingWriter.Write(read.Reading).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        foreach (string line in lines.DefaultIfEmpty("nothing"))
        {
            sheet.Say(line, 3);
        }
    }

    /// <summary>One finding.</summary>
    public static void Write(Sheet sheet, SiteWords words, Site site, Finding finding, int number)
    {
        if (number > 1)
        {
            sheet.Say();
        }

        string certainty = finding.Certainty switch { Certainty.Sure => "sure", Certainty.Likely => "likely", _ => "possible" };
        sheet.Say($"{number}. {finding.Explanation} ({certainty})", 3);
        sheet.Say($"   Seen: {finding.FromOutside}", 3);
        foreach (string change in finding.MendInWords)
        {
            sheet.Say($"   Mend: {change}", 3);
        }

        if (finding.Effect is { } effect)
        {
            sheet.Say($"   A week: {Week(site, effect.AsItIs)} as it is; {Week(site, effect.Mended)} mended.", 3);
        }

        if (finding.Shows.Count > 1)
        {
            sheet.Say($"   Watch: {string.Join("; ", finding.Shows.Select(s => $"{SiteWords.Date(s.At.Date)} {words.Time(new LocalTime(s.At.Hour, s.At.Minute))} station {s.Station} {(s.Runs ? "runs" : "does not run")}"))}.", 3);
        }
    }

    private static string Week(Site site, WeekOfWater week)
    {
        bool us = site.Units == UnitSystem.UsCustomary;
        double amount = us ? week.Litres / UsUnits.LitresPerGallon : week.Litres;
        return string.Create(CultureInfo.InvariantCulture, $"{week.Waterings:0.#} runs, {week.Minutes:0} min, {amount:#,0} {(us ? "gal" : "L")}");
    }
}
