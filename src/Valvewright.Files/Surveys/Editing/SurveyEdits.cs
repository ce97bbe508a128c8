using System.Globalization;
using System.Text.RegularExpressions;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys.Editing;

/// <summary>
/// Changes single values within the text of a survey and leaves everything else as the person wrote it: comments, layout, order.
/// A change is made only where the text, read again, says what it said before but for that one value.
/// </summary>
public static partial class SurveyEdits
{
    private const string Name = "survey";

    /// <summary>The text with another name of the site; null where it cannot be changed by itself.</summary>
    public static string? Renamed(string text, string name) => Changed(text, ["site"], Written(name), site => site with { Name = name });

    /// <summary>The text with another place, degrees north and east; null where it cannot be changed by itself.</summary>
    public static string? Moved(string text, double latitudeDeg, double longitudeDeg)
    {
        string? first = Replaced(text, ["location", "latitude"], Written(latitudeDeg));
        string? both = first is null ? null : Replaced(first, ["location", "longitude"], Written(longitudeDeg));
        return Held(text, both, site => site with { Place = site.Place with { LatitudeDeg = latitudeDeg, LongitudeDeg = longitudeDeg } });
    }

    /// <summary>The text with another supply for a controller; null where it cannot be changed by itself.</summary>
    public static string? Supplied(string text, string controller, string supply) => Changed(
        text, ["controllers", controller, "supply"], Written(supply),
        site => site with { Controllers = site.Controllers.Select(c => c.Name == controller ? c with { Supply = supply } : c).ToListOf() });

    /// <summary>The text with another flow limit of a supply, rounded down to a tenth of the site's unit; null where it cannot be changed
    /// by itself.</summary>
    public static string? Limited(string text, string supply, double flowLpm, UnitSystem units)
    {
        Unit unit = units == UnitSystem.UsCustomary ? Units.GallonPerMinute : Units.LitrePerMinute;
        double tenths = Math.Floor(Math.Round(flowLpm / unit.Factor * 10, 6)) / 10;
        return Changed(
            text, ["supplies", supply, "flow"], $"{Written(tenths)} {unit.Symbol}",
            site => site with { Supplies = site.Supplies
                .Select(s => s.Name == supply ? s with { FlowLpm = tenths * unit.Factor } : s).ToListOf() });
    }

    private static string? Changed(string text, string[] path, string value, Func<Site, Site> change) =>
        Held(text, Replaced(text, path, value), change);

    private static string? Held(string before, string? after, Func<Site, Site> change) =>
        after is not null && SurveyFiles.ParseApart(before, Name).Site is { } was && SurveyFiles.ParseApart(after, Name).Site is { } site
            && Apart(change(was)) == Apart(site) ? after : null;

    /// <summary>What is assumed may rest on the value that was changed.</summary>
    private static Site Apart(Site site) => site with { Assumptions = [] };

    private static string? Replaced(string text, string[] path, string value) =>
        YamlTree.Read(text, new Findings(Name)) is { } root && Find(root, path) is { } word
        ? string.Concat(text.AsSpan(0, word.Span.Start), value, text.AsSpan(word.Span.End))
        : null;

    /// <summary>The value at the end of a path; an item of a list goes by its <c>name</c>.</summary>
    private static TextNode? Find(SurveyNode? at, string[] path)
    {
        foreach (string step in path)
        {
            at = at switch
            {
                MapNode map => map[step]?.Value,
                ListNode list => list.Items.OfType<MapNode>().FirstOrDefault(
                    item => item["name"]?.Value is TextNode name && name.Text == step),
                _ => null,
            };
        }

        return at as TextNode;
    }

    private static string Written(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    /// <summary>Text of one line in double quotes, within which nothing in it can be taken for YAML.</summary>
    public static string Quoted(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return $"\"{text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal)}\"";
    }

    private static string Written(string value) => PlainText().IsMatch(value) ? value : Quoted(value);

    [GeneratedRegex(@"^(?!(?i:true|false|yes|no|null|on|off|nan|inf)$)\p{L}[\p{L}\p{Nd} ]*(?<! )$")]
    private static partial Regex PlainText();
}
