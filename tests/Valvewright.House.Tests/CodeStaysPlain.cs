using System.Xml.Linq;
using Valvewright.Tests;

namespace Valvewright.House.Tests;

/// <summary>
/// Lines that fit, names used once, folders without circles. What breaks a rule today is on a list in <c>Exceptions/</c>; the lists may
/// only shrink.
/// </summary>
public sealed class CodeStaysPlain
{
    private const int LongestLine = 140;

    [Fact]
    public void No_line_is_over_140_columns() =>
        OnlyShrinks("long-lines", Tree.Files
            .Where(f => f.EndsWith(".cs", StringComparison.Ordinal) && !f.Contains("/Migrations/", StringComparison.Ordinal))
            .SelectMany(f => Enumerable.Repeat(f, Tree.Read(f).Split('\n').Count(l => l.TrimEnd('\r').Length > LongestLine))));

    [Fact]
    public void No_name_stands_for_two_types() =>
        OnlyShrinks("names-used-twice", Code.All
            .SelectMany(c => c.Types.Select(t => (Type: t, c.Namespace))).Distinct().GroupBy(t => t.Type).Where(g => g.Count() > 1)
            .SelectMany(g => g.Select(t => $"{g.Key} {t.Namespace}")));

    [Fact]
    public void No_circle_goes_through_folders() =>
        OnlyShrinks("folders-in-circles", Code.All.GroupBy(c => c.Project).SelectMany(p => InCircles(Uses([.. p]))));

    /// <summary>Which folder uses which: a name in a file that is a type of another folder that the file sees.</summary>
    private static Dictionary<string, HashSet<string>> Uses(Code[] project)
    {
        ILookup<string, string> homes = project.SelectMany(c => c.Types.Select(t => (t, c.Namespace))).Distinct()
            .ToLookup(t => t.t, t => t.Namespace);
        string[] usings = Usings(project[0].Project);
        Dictionary<string, HashSet<string>> uses = project.Select(c => c.Namespace).Distinct().ToDictionary(
            n => n, _ => new HashSet<string>());
        foreach (Code code in project)
        {
            HashSet<string> seen = [.. code.Seen(usings)];
            foreach (string name in code.Names())
            {
                string[] there = [.. homes[name].Where(seen.Contains)];
                uses[code.Namespace].UnionWith(there.Contains(code.Namespace) ? [] : there);
            }
        }

        return uses;
    }

    private static string[] Usings(string project)
    {
        string folder = Path.Combine("src", project);
        string imports = Path.Combine(folder, "_Imports.razor");
        return
        [
            .. XDocument.Parse(Tree.Read(Path.Combine(folder, project + ".csproj"))).Descendants("Using")
                .Select(u => u.Attribute("Include")!.Value),
            .. Tree.Exists(imports) ? Tree.Read(imports).Split('\n').Where(l => l.StartsWith("@using ", StringComparison.Ordinal))
                .Select(l => l[7..].Trim()) : [],
        ];
    }

    /// <summary>The folders that reach themselves by way of others.</summary>
    private static IEnumerable<string> InCircles(Dictionary<string, HashSet<string>> uses) =>
        uses.Keys.Where(n => Reached(uses, n).Contains(n));

    private static HashSet<string> Reached(Dictionary<string, HashSet<string>> uses, string from)
    {
        HashSet<string> reached = [];
        Stack<string> open = new(uses[from]);
        while (open.TryPop(out string? next))
        {
            if (reached.Add(next))
            {
                foreach (string further in uses[next])
                {
                    open.Push(further);
                }
            }
        }

        return reached;
    }

    /// <summary>
    /// Fails where there is more than the list allows. With <c>VALVEWRIGHT_LISTS=shrink</c> a list is cut to what is still there, so that
    /// what was won is kept.
    /// </summary>
    private static void OnlyShrinks(string list, IEnumerable<string> today)
    {
        string file = Path.Combine(Checkout.Root, "tests", "Valvewright.House.Tests", "Exceptions", list + ".txt");
        Dictionary<string, int> now = today.CountBy(t => t).ToDictionary();
        Dictionary<string, int> allowed = (File.Exists(file) ? File.ReadAllLines(file) : []).ToDictionary(NameOf, CountOf);
        if (Environment.GetEnvironmentVariable("VALVEWRIGHT_LISTS") == "shrink")
        {
            File.WriteAllLines(file, allowed.Where(a => now.ContainsKey(a.Key)).Select(a => Line(a.Key, Math.Min(a.Value, now[a.Key])))
                .Order(StringComparer.Ordinal));
        }

        string[] more = [.. now.Where(n => n.Value > allowed.GetValueOrDefault(n.Key))
            .Select(n => $"{n.Key}: {n.Value}, allowed {allowed.GetValueOrDefault(n.Key)}")];
        Assert.True(more.Length == 0, $"More than tests/Valvewright.House.Tests/Exceptions/{list}.txt allows:\n{string.Join('\n', more)}");
    }

    private static string Line(string name, int count) => count == 1 ? name : $"{name} {count}";

    private static string NameOf(string line) => int.TryParse(line.Split(' ')[^1], out _) ? line[..line.LastIndexOf(' ')] : line;

    private static int CountOf(string line) => int.TryParse(line.Split(' ')[^1], out int count) ? count : 1;
}
