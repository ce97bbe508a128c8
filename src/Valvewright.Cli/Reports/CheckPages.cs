using System.Globalization;
using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Checks;
using Valvewright.Files.Plans;

namespace Valvewright.Cli.Reports;

/// <summary>A check as text: what was doubtful first, then what is wrong, then what to ask.</summary>
internal static class CheckPages
{
    public static void Write(
        Sheet sheet, CheckSaid said, Site site, SiteController controller, string source, string? planFile, SavedPlan? saved,
            LocalDateTime at, ReadText read, CheckResult result)
    {
        sheet.Heading(said.Fill("heading", ("site", site.Name), ("controller", controller.Name)));
        sheet.Say(said.Fill("at", ("date", said.Say.Date(at.Date)), ("time", said.Say.Time(at.TimeOfDay)), ("source", source)));
        sheet.Say(planFile is null ? said["alone"] : said.Fill("against", ("plan", planFile)));
        if (saved?.IsFor(site) == false)
        {
            sheet.Say(said["surveyChanged"]);
        }

        if (planFile is not null && !result.AgainstPlan)
        {
            sheet.Say(said["notInPlan"]);
        }

        if (read.Reading == new Reading() && read.Doubts.Count == 0)
        {
            return;
        }

        Doubts(sheet, said, "doubtful.reading", read.Doubts);
        Understood(sheet, said, site, read);
        sheet.Heading(said.Count("findings", result.Findings.Count));
        int number = 0;
        foreach (Finding finding in result.Findings)
        {
            Write(sheet, said, finding, ++number);
        }
    }

    /// <summary>What was doubtful in a text.</summary>
    public static void Doubts(Sheet sheet, CheckSaid said, string heading, IReadOnlyCollection<Doubt> doubts)
    {
        if (doubts.Count == 0)
        {
            return;
        }

        sheet.Heading(said.Fill(heading, ("n", doubts.Count)));
        foreach (Doubt doubt in doubts)
        {
            string heard = doubt.Taken.Text.Length > 0 ? said.Fill("doubt.taken", ("as", said.In(doubt.Taken))) : doubt.IsLeftOut
                ? said["doubt.leftOut"] : "";
            string otherwise = doubt.Otherwise.Text.Length == 0 ? ""
                : said.Fill(doubt.IsLeftOut ? "doubt.perhaps" : "doubt.orElse", ("else", said.In(doubt.Otherwise)));
            string taken = string.Join(", ", new[] { heard, otherwise }.Where(t => t.Length > 0));
            sheet.Say(
                $"{doubt.Line}:{doubt.Column} \"{Printable.Of(doubt.Found)}\"{(taken.Length > 0 ? $" {taken}." : ":")} {said.In(doubt.Why)}.", 4);
        }
    }

    /// <summary>What the programs read would water over years of record, if they stayed as they are all year.</summary>
    public static void Water(Sheet sheet, CheckSaid said, ListOf<ZoneProof> zones)
    {
        sheet.Heading(said["water"]);
        foreach (ZoneProof zone in zones)
        {
            sheet.Say(said.Fill(
                zone.IsServed ? "water.served" : "water.short", ("station", zone.Station), ("zone", Printable.Of(zone.Zone)),
                    ("met", PercentOf(zone.UseMet)),
                ("goal", PercentOf(zone.LeastUseMet)), ("ratio", zone.WaterRatio.ToString("0.0", CultureInfo.InvariantCulture))), 3);
        }
    }

    private static string PercentOf(double share) => Math.Floor((100 * share) + 1e-9).ToString("0", CultureInfo.InvariantCulture);

    private static void Understood(Sheet sheet, CheckSaid said, Site site, ReadText read)
    {
        sheet.Heading(said["understood"]);
        string[] lines = ReadingWriter.Write(read.Reading, site.Clock, said.Language == CheckLanguage.Spanish)
            .Split('\n', StringSplitOptions.RemoveEmptyEntries);
        foreach (string line in lines.DefaultIfEmpty(said["understood.nothing"]))
        {
            sheet.Say(line, 3);
        }
    }

    private static void Write(Sheet sheet, CheckSaid said, Finding finding, int number)
    {
        if (number > 1)
        {
            sheet.Say();
        }

        sheet.Say($"{number}. {finding.Explanation} ({said[$"certainty.{finding.Certainty}"]})", 3);
        sheet.Say("   " + said.Fill("outside", ("text", finding.FromOutside)), 3);
        foreach (string change in finding.MendInWords)
        {
            sheet.Say("   " + said.Fill("mend", ("text", change)), 3);
        }

        if (finding.Effect is { } effect)
        {
            sheet.Say("   " + said.Effect(effect), 3);
        }

        if (finding.Shows.Count > 1)
        {
            sheet.Say("   " + said.Fill("watch", ("list", string.Join("; ", finding.Shows.Select(said.Showing)))), 3);
        }
    }
}
