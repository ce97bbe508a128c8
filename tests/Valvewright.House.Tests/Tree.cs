using Valvewright.Tests;

namespace Valvewright.House.Tests;

/// <summary>The files of the source tree, without what builds and runs leave behind.</summary>
internal static class Tree
{
    private static readonly string[] LeftBehind = ["bin", "obj", "out", "TestResults", "node_modules"];

    /// <summary>Paths from the root of the tree, parted by '/', in order.</summary>
    public static IReadOnlyList<string> Files { get; } =
        [.. Below(Checkout.Root).Select(path => Path.GetRelativePath(Checkout.Root, path).Replace('\\', '/'))
            .Order(StringComparer.Ordinal)];

    /// <summary>The pages for people: README.md and the like, and docs/.</summary>
    public static IReadOnlyList<string> Pages { get; } =
        [.. Files.Where(f => f.EndsWith(".md", StringComparison.Ordinal)
            && (!f.Contains('/', StringComparison.Ordinal) || f.StartsWith("docs/", StringComparison.Ordinal)))];

    public static string Read(string file) => File.ReadAllText(Path.Combine(Checkout.Root, file));

    public static bool Exists(string path) => Path.Exists(Path.Combine(Checkout.Root, path));

    /// <summary>The folders of src with the number of files that each holds itself.</summary>
    public static IReadOnlyList<(string Folder, int Files)> SourceFolders { get; } =
        [.. Files.Where(f => f.StartsWith("src/", StringComparison.Ordinal)).GroupBy(f => f[..f.LastIndexOf('/')])
            .Select(g => (g.Key, g.Count()))];

    private static IEnumerable<string> Below(string folder) =>
        Directory.EnumerateFiles(folder).Concat(Directory.EnumerateDirectories(folder)
            .Where(inner => Path.GetFileName(inner) is var name && !LeftBehind.Contains(name) && (name == ".ci" || name[0] != '.'))
            .SelectMany(Below));
}
