using System.Globalization;
using System.Text;
using Valvewright.Files.Surveys;
using Valvewright.Files.Surveys.Editing;
using Valvewright.Records.Views;

namespace Valvewright.Server.Fleets.Import;

/// <summary>
/// Begins the survey of a site from its rows in a table. It holds what the table says; what a survey needs besides stands in it as comments
/// to be filled in. Nothing is made up, so that it is no survey yet.
/// </summary>
internal static class SurveyDrafts
{
    public static SurveyDraft Of(Sheet sheet, string name, List<SheetRow> rows, List<TextProblem> problems)
    {
        StringBuilder text = new();
        text.AppendLine("# Begun from a table of controllers. What else a survey needs is in comments: fill it in.");
        text.AppendLine(CultureInfo.InvariantCulture, $"site: {Written(name)}");
        double?[] place = [.. ((string[])["latitude_deg", "longitude_deg"])
            .Select(h => rows.Select(r => sheet.NumberOf(r, h, problems)).FirstOrDefault(n => n is not null))];
        text.AppendLine(place is [{ } latitude, { } longitude]
            ? string.Create(CultureInfo.InvariantCulture, $"location: {{ latitude: {latitude:R}, longitude: {longitude:R} }}")
            : "# location: { latitude: degrees north, longitude: degrees east }");
        text.AppendLine("# time zone: an IANA name such as Europe/Madrid");
        string[] supplies = [.. rows.Select(r => sheet.TextOf(r, "supply")).Where(s => s.Length > 0).Distinct()];
        text.AppendLine("supplies:");
        foreach (string supply in supplies.DefaultIfEmpty("Main"))
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"  - name: {Written(supply)}");
            text.AppendLine("    # flow: the most it gives at once, such as 40 L/min");
        }

        text.AppendLine("controllers:");
        foreach (SheetRow row in rows)
        {
            Controller(text, sheet, row, problems);
        }

        return new SurveyDraft(name, rows.Select(r => r.Number).ToListOf(), text.Replace("\r\n", "\n").ToString());
    }

    private static void Controller(StringBuilder text, Sheet sheet, SheetRow row, List<TextProblem> problems)
    {
        string name = sheet.TextOf(row, "controller");
        if (name.Length == 0)
        {
            problems.Add(sheet.Problem(
                row, "controller", "the name painted on its lid", null, "The row does not say which controller it is about"));
            return;
        }

        text.AppendLine(CultureInfo.InvariantCulture, $"  - name: {Written(name)}");
        if (sheet.TextOf(row, "supply") is { Length: > 0 } supply)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"    supply: {Written(supply)}");
        }

        double? stations = sheet.NumberOf(row, "stations", problems), zones = sheet.NumberOf(row, "zones", problems);
        string[] profiles = [.. GenericProfiles.All.Where(p => p.Stations == stations).Select(p => p.Name)];
        text.AppendLine(CultureInfo.InvariantCulture,
            $"    # profile: {(profiles.Length > 0 ? "such as " + string.Join(", or ", profiles.Select(p => $"\"{p}\"")) : stations is { } n ? $"a controller of {n:R} stations" : "a built-in profile, or one spelled out")}");
        text.AppendLine(CultureInfo.InvariantCulture,
            $"    # zones: {(zones is { } z ? $"{z:R} of them, " : "")}each with station, name, area, plants, sprinklers");
        string measured = string.Join(", ", ((string[])["last_visit", "battery_v", "meter_m3"]).Select(
            h => (Heading: h, Text: sheet.TextOf(row, h))).Where(c => c.Text.Length > 0).Select(c => $"{c.Heading} {OneLine(c.Text)}"));
        if (measured.Length > 0)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"    # The table also says: {measured}");
        }
    }

    /// <summary>In double quotes: a name must not become anything else in YAML.</summary>
    private static string Written(string text) => SurveyEdits.Quoted(OneLine(text));

    private static string OneLine(string text) => string.Concat(text.Select(c => char.IsControl(c) || c is '\u2028' or '\u2029' ? ' ' : c));
}
