using System.Text.RegularExpressions;

namespace Valvewright.House.Tests;

/// <summary>What pages for people name is there, and what is there is named.</summary>
public sealed partial class PagesAreTrue
{
    private const string Rooms = "docs/rooms.md";
    private const string ReferenceData = "docs/reference-data.md";

    public static TheoryData<string> Pages() => [.. Tree.Pages];

    [Theory]
    [MemberData(nameof(Pages))]
    public void Links_lead_to_files(string page)
    {
        string folder = Path.GetDirectoryName(page)!;
        Assert.Empty(LinksIn(page).Where(link => !Tree.Exists(Path.Combine(folder, link))));
    }

    [Theory]
    [MemberData(nameof(Pages))]
    public void Paths_that_are_named_exist(string page) =>
        Assert.Empty(NamedPath().Matches(Tree.Read(page)).Select(m => m.Groups[1].Value)
            .Where(path => !path.Contains("/out/", StringComparison.Ordinal) && !Tree.Exists(path)));

    [Fact]
    public void Every_page_is_linked_from_another()
    {
        HashSet<string> linked = [
            .. Tree.Pages.SelectMany(
                page => LinksIn(page).Select(link => (page, To: Normal(Path.Combine(Path.GetDirectoryName(page)!, link)))))
            .Where(l => l.To != l.page).Select(l => l.To)];
        Assert.Empty(Tree.Pages.Where(page => page.StartsWith("docs/", StringComparison.Ordinal) && !linked.Contains(page)));
    }

    [Fact]
    public void The_map_names_every_project()
    {
        string map = Tree.Read(Rooms);
        IEnumerable<string> projects = Tree.SourceFolders.Select(f => f.Folder.Split('/')[1]).Distinct();
        Assert.Empty(projects.Where(project => !map.Contains($"`{project}`", StringComparison.Ordinal)));
    }

    [Fact]
    public void The_map_names_every_folder_of_the_engine()
    {
        string map = Tree.Read(Rooms);
        IEnumerable<string> folders = Tree.SourceFolders.Select(f => f.Folder.Split('/'))
            .Where(f => f.Length > 2 && f[1] == "Valvewright.Engine").Select(f => f[2]).Distinct();
        Assert.Empty(folders.Where(folder => !map.Contains($"`{folder}`", StringComparison.Ordinal)));
    }

    [Fact]
    public void Reference_data_are_named_with_their_source()
    {
        string page = Tree.Read(ReferenceData);
        Assert.Empty(Tree.Files.Where(f =>
            f.StartsWith("reference/", StringComparison.Ordinal) && !page.Contains($"`{Path.GetFileName(f)}`", StringComparison.Ordinal)));
    }

    private static IEnumerable<string> LinksIn(string page) =>
        Link().Matches(Tree.Read(page)).Select(m => m.Groups[1].Value.Split('#')[0])
            .Where(link => link.Length > 0 && !link.Contains(':', StringComparison.Ordinal));

    private static string Normal(string path) => Path.GetRelativePath(".", path).Replace('\\', '/');

    [GeneratedRegex(@"\]\(([^)\s]+)\)")]
    private static partial Regex Link();

    /// <summary>A path from the root, in code quotes or after the word that leads to a page.</summary>
    [GeneratedRegex(@"(?<![\w./-])((?:src|docs|tests|bench|demo|reference|schema)/[\w+.-]+(?:/[\w+.-]+)*[\w+-])")]
    private static partial Regex NamedPath();
}
