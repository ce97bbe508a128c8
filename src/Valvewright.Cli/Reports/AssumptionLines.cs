using Valvewright.Cli.Output;

namespace Valvewright.Cli.Reports;

/// <summary>Assumptions in lines that can be read: one a value, with the zones that it holds for.</summary>
internal static class AssumptionLines
{
    private const string Controllers = "controllers/";
    private const string Zones = "/zones/";

    /// <summary>Different values of a rule that are named in its line.</summary>
    private const int ValuesShown = 3;

    /// <summary>A value of so few signs is not parted at the end of a line.</summary>
    private const int ShortValue = 20;

    /// <summary>The lines, in the order in which the survey met them.</summary>
    public static IEnumerable<string> Of(Site site)
    {
        int zones = site.Controllers.Sum(c => c.Zones.Count);
        foreach (IGrouping<(string What, string Value, string Why), (string What, string? Zone, Assumption Said)> same in site.Assumptions
            .Select(Split)
            .GroupBy(a => (a.What, Value: a.Said.Value.Text, Why: a.Said.Why.Text)))
        {
            string[] where = [.. same.Select(a => a.Zone).OfType<string>()];
            string whom = where.Length == 0 ? "" : where.Length == zones && zones > 1 && same.First().Said.Path.Contains(Zones, StringComparison.Ordinal) ? " for every zone" : $" for {string.Join("; ", where)}";
            yield return $"{same.Key.What}: {same.Key.Value}{whom} ({same.Key.Why})";
        }
    }

    /// <summary>A line a rule: what was taken, and in how many zones or controllers.</summary>
    public static Table InShort(Site site)
    {
        Table table = new("what", "taken", ">for");
        foreach (IGrouping<string, (string What, string? Zone, Assumption Said)> rule in site.Assumptions.Select(Split).GroupBy(a => a.What))
        {
            string[] values = [.. rule.GroupBy(a => a.Said.Value.Text).OrderByDescending(g => g.Count()).Select(g => g.Key.Length <= ShortValue ? SiteWords.Together(g.Key) : g.Key)];
            string more = values.Length > ValuesShown ? $" and {values.Length - ValuesShown} more" : "";
            int zones = rule.Count(a => a.Zone is not null);
            string one = rule.First().Said.Path.Contains(Zones, StringComparison.Ordinal) ? "zone" : "controller";
            table.Row(rule.Key, string.Join(", ", values.Take(ValuesShown)) + more, zones == 0 ? "the\u00a0site" : $"{zones}\u00a0{one}{(zones == 1 ? "" : "s")}");
        }

        return table;
    }

    /// <summary><c>controllers/North/zones/Lawn/soil/intake</c> is the intake of soil in Lawn; <c>controllers/North/supply</c> the supply of North.</summary>
    private static (string What, string? Zone, Assumption Said) Split(Assumption said)
    {
        int zones = said.Path.IndexOf(Zones, StringComparison.Ordinal);
        if (!said.Path.StartsWith(Controllers, StringComparison.Ordinal))
        {
            return (said.Path.Replace("/", ", ", StringComparison.Ordinal), null, said);
        }

        string rest = said.Path[(zones < 0 ? Controllers.Length : zones + Zones.Length)..];
        int end = rest.IndexOf('/', StringComparison.Ordinal);
        return end < 0 ? (said.Path, null, said) : (rest[(end + 1)..].Replace("/", ", ", StringComparison.Ordinal), rest[..end], said);
    }
}
