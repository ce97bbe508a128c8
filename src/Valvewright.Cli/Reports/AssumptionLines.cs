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
    public static IEnumerable<string> Of(Site site, Sheet? sheet = null)
    {
        string In(Sentence sentence) => Worded(sentence, sheet);
        int zones = site.Controllers.Sum(c => c.Zones.Count);
        foreach (IGrouping<(string What, string Value, string Why), (string What, string? Zone, Assumption Said)> same in site.Assumptions
            .Select(Split)
            .GroupBy(a => (What: What(a.What, In), Value: In(a.Said.Value), Why: In(a.Said.Why))))
        {
            string[] where = [.. same.Select(a => a.Zone).OfType<string>()];
            string whom = where.Length == 0 ? "" : where.Length == zones && zones > 1 && same.First().Said.Path
                .Contains(Zones, StringComparison.Ordinal) ? In(" for every zone") : In($" for {string.Join("; ", where)}");
            yield return $"{same.Key.What}: {same.Key.Value}{whom} ({same.Key.Why})";
        }
    }

    /// <summary>A line a rule: what was taken, and in how many zones or controllers.</summary>
    public static Table InShort(Site site, Sheet? sheet = null)
    {
        Table table = new("What", "Assumed", ">For");
        string In(Sentence sentence) => Worded(sentence, sheet);
        foreach (IGrouping<string, (string What, string? Zone, Assumption Said)> rule in site.Assumptions.Select(Split)
            .GroupBy(a => a.What))
        {
            string[] values = [.. rule.GroupBy(a => In(a.Said.Value)).OrderByDescending(g => g.Count())
                .Select(g => g.Key.Length <= ShortValue ? SiteWords.Together(g.Key) : g.Key)];
            string more = values.Length > ValuesShown ? In($" and {values.Length - ValuesShown} more") : "";
            int zones = rule.Count(a => a.Zone is not null);
            bool isZone = rule.First().Said.Path.Contains(Zones, StringComparison.Ordinal);
            Sentence count = (zones, isZone) switch
            {
                (0, _) => (Sentence)"the site",
                (1, true) => (Sentence)"1 zone",
                (_, true) => (Sentence)$"{zones} zones",
                (1, false) => (Sentence)"1 controller",
                _ => (Sentence)$"{zones} controllers",
            };
            table.Row(What(rule.Key, In), string.Join(", ", values.Take(ValuesShown)) + more, SiteWords.Together(In(count)));
        }

        return table;
    }

    /// <summary>In the person's language; a percent as English writes it.</summary>
    private static string Worded(Sentence sentence, Sheet? sheet) => sheet is null or { Language: Files.Texts.Language.English }
        ? sentence.Text.Replace(" %", "%", StringComparison.Ordinal)
        : sheet.In(sentence);

    /// <summary>The parts of a path, each in the person's language.</summary>
    private static string What(string path, Func<Sentence, string> say) => string.Join(", ", path.Split(", ").Select(p => say(p)));

    /// <summary><c>controllers/North/zones/Lawn/soil/intake</c> is the intake of soil in Lawn; <c>controllers/North/supply</c> the supply
    /// of North.</summary>
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
