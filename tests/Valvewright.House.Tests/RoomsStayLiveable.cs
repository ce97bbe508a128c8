namespace Valvewright.House.Tests;

/// <summary>Sizes at which a person still finds their way: short files, few of them in a folder.</summary>
public sealed class RoomsStayLiveable
{
    private const int MostLines = 500;
    private const int ManyLines = 250;
    private const int MostLongFiles = 9;
    private const int MostFiles = 14;

    /// <summary>Folders that hold more; a folder that has been divided leaves this list.</summary>
    private static readonly string[] Crowded =
    [
        "src/Valvewright.Cli/Commands",
        "src/Valvewright.Engine/Checks",
    ];

    /// <summary>C# that people write; migrations are written by a tool.</summary>
    private static readonly (string File, int Lines)[] Written =
    [
        .. Tree.Files
            .Where(f => f.EndsWith(".cs", StringComparison.Ordinal) && !f.Contains("/Migrations/", StringComparison.Ordinal))
            .Select(f => (f, Tree.Read(f).Count(c => c == '\n'))),
    ];

    [Fact]
    public void No_file_is_over_500_lines() =>
        Assert.Empty(Written.Where(f => f.Lines > MostLines));

    [Fact]
    public void Few_files_are_over_250_lines()
    {
        (string, int)[] many = [.. Written.Where(f => f.Lines > ManyLines)];
        Assert.True(many.Length <= MostLongFiles, $"{many.Length} files are over {ManyLines} lines: {string.Join(", ", many)}");
    }

    [Fact]
    public void No_folder_holds_more_than_fourteen_files() =>
        Assert.Empty(Tree.SourceFolders.Where(f => f.Files > MostFiles && !Crowded.Contains(f.Folder)));

    [Fact]
    public void The_list_of_crowded_folders_is_no_longer_than_it_has_to_be() =>
        Assert.Empty(Crowded.Where(folder => !Tree.SourceFolders.Any(f => f.Folder == folder && f.Files > MostFiles)));
}
