using System.Xml.Linq;
using Valvewright.Tests;

namespace Valvewright.House.Tests;

/// <summary>Rooms may use only the rooms below them (docs/rooms.md).</summary>
public sealed class DependenciesPointOneWay
{
    private static readonly Dictionary<string, string[]> MayUse = new()
    {
        ["Valvewright.Engine"] = [],
        ["Valvewright.Planning"] = ["Valvewright.Engine"],
        ["Valvewright.Files"] = ["Valvewright.Engine"],
        ["Valvewright.Work"] = ["Valvewright.Engine", "Valvewright.Files"],
        ["Valvewright.Work.Search"] = ["Valvewright.Engine", "Valvewright.Planning", "Valvewright.Work"],
        ["Valvewright.Records"] = ["Valvewright.Engine"],
        ["Valvewright.Store"] = ["Valvewright.Engine", "Valvewright.Records"],
        ["Valvewright.App"] = ["Valvewright.Engine", "Valvewright.Files", "Valvewright.Records", "Valvewright.Work"],
        ["Valvewright.Server"] =
            ["Valvewright.Engine", "Valvewright.Planning", "Valvewright.Files", "Valvewright.Records", "Valvewright.Store",
                "Valvewright.Work", "Valvewright.Work.Search"],
        ["Valvewright.Cli"] =
            ["Valvewright.Engine", "Valvewright.Planning", "Valvewright.Files", "Valvewright.Records", "Valvewright.Store",
                "Valvewright.Work", "Valvewright.Work.Search", "Valvewright.Server"],
    };

    public static TheoryData<string> Projects()
    {
        TheoryData<string> data = [];
        foreach (string folder in Directory.GetDirectories(Path.Combine(Checkout.Root, "src")).Order(StringComparer.Ordinal))
        {
            data.Add(Path.GetFileName(folder));
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Projects))]
    public void A_room_refers_only_to_rooms_it_may_use(string project)
    {
        Assert.True(MayUse.ContainsKey(project), $"{project} is not a known room: say here and in docs/rooms.md what it may use.");
        XDocument file = XDocument.Load(Path.Combine(Checkout.Root, "src", project, project + ".csproj"));
        foreach (XElement reference in file.Descendants("ProjectReference"))
        {
            string used = Path.GetFileNameWithoutExtension(reference.Attribute("Include")!.Value.Replace('\\', '/'));
            Assert.True(MayUse[project].Contains(used),
                $"{project} refers to {used}, but may use only: {string.Join(", ", MayUse[project])}.");
        }
    }

    [Fact]
    public void The_engine_touches_no_file_network_or_process()
    {
        string[] forbidden = ["System.IO.File", "File.Open", "File.Read", "File.Write", "Directory.", "HttpClient", "Process.Start",
            "DllImport", "LibraryImport", "DateTime.Now", "DateTime.UtcNow", "SystemClock"];
        foreach (string path in Directory.EnumerateFiles(
            Path.Combine(Checkout.Root, "src", "Valvewright.Engine"), "*.cs", SearchOption.AllDirectories))
        {
            if (path.Contains("/obj/", StringComparison.Ordinal) || path.Contains("/bin/", StringComparison.Ordinal))
            {
                continue;
            }

            string text = File.ReadAllText(path);
            foreach (string word in forbidden)
            {
                Assert.False(text.Contains(word, StringComparison.Ordinal),
                    $"{Path.GetRelativePath(Checkout.Root, path)} uses {word}; the engine is pure.");
            }
        }
    }
}
