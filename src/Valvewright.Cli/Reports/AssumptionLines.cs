using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Cli.Reports;

/// <summary>Assumptions in lines that can be read: one a value, with the zones that it holds for.</summary>
internal static class AssumptionLines
{
    private const string Controllers = "controllers/";
    private const string Zones = "/zones/";

    /// <summary>The lines, in the order in which the survey met them.</summary>
    public static IEnumerable<string> Of(Site site)
    {
        int zones = site.Controllers.Sum(c => c.Zones.Count);
        foreach (IGrouping<(string What, string Value, string Why), (string What, string? Zone, Assumption Said)> same in site.Assumptions
            .Select(Split)
            .GroupBy(a => (a.What, a.Said.Value, a.Said.Why)))
        {
            string[] where = [.. same.Select(a => a.Zone).OfType<string>()];
            string whom = where.Length == 0 ? "" : where.Length == zones && zones > 1 ? " for every zone" : $" for {string.Join(", ", where)}";
            yield return $"{same.Key.What}: {same.Key.Value}{whom} ({same.Key.Why})";
        }
    }

    /// <summary><c>controllers/North/zones/Lawn/soil/intake</c> is the intake of soil in Lawn.</summary>
    private static (string What, string? Zone, Assumption Said) Split(Assumption said)
    {
        int zones = said.Path.IndexOf(Zones, StringComparison.Ordinal);
        if (!said.Path.StartsWith(Controllers, StringComparison.Ordinal) || zones < 0)
        {
            return (said.Path, null, said);
        }

        string rest = said.Path[(zones + Zones.Length)..];
        int end = rest.IndexOf('/', StringComparison.Ordinal);
        return end < 0 ? (said.Path, null, said) : (rest[(end + 1)..].Replace("/", ", ", StringComparison.Ordinal), rest[..end], said);
    }
}
