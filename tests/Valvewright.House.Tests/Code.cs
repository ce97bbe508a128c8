using System.Text.RegularExpressions;

namespace Valvewright.House.Tests;

/// <summary>A file of C# or a component, as the rules about code see it.</summary>
/// <param name="File">Path from the root of the tree.</param>
/// <param name="Project">Its project.</param>
/// <param name="Folder">Its folder within the project; empty for the project's own.</param>
/// <param name="Text">The text without comments and strings.</param>
/// <param name="Types">The types that it declares outside others.</param>
internal sealed partial record Code(string File, string Project, string Folder, string Text, IReadOnlyList<string> Types)
{
    /// <summary>The folder as a namespace.</summary>
    public string Namespace { get; } = Folder.Length == 0 ? Project : $"{Project}.{Folder.Replace('/', '.')}";

    /// <summary>All of src that people write.</summary>
    public static IReadOnlyList<Code> All { get; } =
    [
        .. Tree.Files.Where(f => f.StartsWith("src/", StringComparison.Ordinal) && !f.Contains("/Migrations/", StringComparison.Ordinal)
                && Path.GetExtension(f) is ".cs" or ".razor" && Path.GetFileName(f) != "_Imports.razor")
            .Select(Read),
    ];

    /// <summary>The namespaces that the file may leave out: its own, those around it, those of its usings.</summary>
    public IEnumerable<string> Seen(IEnumerable<string> usingsOfProject)
    {
        for (string around = Namespace; around.Contains('.', StringComparison.Ordinal); around = around[..around.LastIndexOf('.')])
        {
            yield return around;
        }

        foreach (string used in Using().Matches(Tree.Read(File)).Select(m => m.Groups[1].Value).Concat(usingsOfProject))
        {
            yield return used;
        }
    }

    /// <summary>The words of the text that could be names of types.</summary>
    public IEnumerable<string> Names() => Name().Matches(Text).Select(m => m.Value).Distinct();

    private static Code Read(string file)
    {
        string[] parts = file.Split('/');
        bool isComponent = file.EndsWith(".razor", StringComparison.Ordinal);
        string text = Aside().Replace(Tree.Read(file), " ");
        IReadOnlyList<string> types = isComponent ? [Path.GetFileNameWithoutExtension(file)]
            : [.. Declaration().Matches(text).Select(m => m.Groups[1].Value).Distinct()];
        return new Code(file, parts[1], string.Join('/', parts[2..^1]), text, types);
    }

    [GeneratedRegex("""//.*|/\*[\s\S]*?\*/|@\*[\s\S]*?\*@|"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])'""")]
    private static partial Regex Aside();

    [GeneratedRegex(
        @"^(?:(?:public|internal|file|sealed|static|abstract|partial|readonly|ref) )*(?:class|record struct|record class|record|struct|interface|enum|delegate [\w<>?,\[\] ]+) ?\b([A-Z]\w*)", RegexOptions.Multiline)]
    private static partial Regex Declaration();

    [GeneratedRegex(@"^\s*@?(?:global )?using (Valvewright[\w.]*);?\s*$", RegexOptions.Multiline)]
    private static partial Regex Using();

    [GeneratedRegex(@"\b[A-Z]\w*")]
    private static partial Regex Name();
}
