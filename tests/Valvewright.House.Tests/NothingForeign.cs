using System.Text.Json;
using System.Text.RegularExpressions;

namespace Valvewright.House.Tests;

/// <summary>What others made stands beside its licence, and no file speaks of a machine that it was written on.</summary>
public sealed partial class NothingForeign
{
    private const string Notices = "THIRD-PARTY.md";
    private static readonly string[] TextEndings =
        [".cs", ".csproj", ".props", ".slnx", ".md", ".json", ".yaml", ".yml", ".c", ".csv", ".txt", ".ts", ".js", ".css", ".html",
            ".razor", ".config", ""];

    [Fact]
    public void No_file_names_a_path_of_a_machine_or_a_host_of_a_private_network() =>
        Assert.Empty(Tree.Files.Where(f => TextEndings.Contains(Path.GetExtension(f)))
            .SelectMany(f => MachinePath().Matches(Tree.Read(f)).Select(m => $"{f}: {m.Value}")));

    [Fact]
    public void Fonts_stand_beside_their_licence()
    {
        IEnumerable<string> folders = Tree.Files.Where(f => Path.GetExtension(f) is ".ttf" or ".otf" or ".woff" or ".woff2")
            .Select(f => Path.GetDirectoryName(f)!).Distinct();
        Assert.All(folders, folder => Assert.True(Tree.Exists(Path.Combine(folder, "OFL.txt")), $"{folder} has no OFL.txt"));
    }

    [Fact]
    public void Every_package_that_ships_is_in_the_notices()
    {
        string notices = Tree.Read(Notices);
        using JsonDocument shipped = JsonDocument.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "valvewright.deps.json")));
        string[] packages = [.. shipped.RootElement.GetProperty("libraries").EnumerateObject()
            .Where(l => l.Value.GetProperty("type").GetString() == "package").Select(l => l.Name.Split('/')[0])];
        Assert.NotEmpty(packages);
        Assert.Empty(packages.Where(p => !notices.Contains($"| {p} |", StringComparison.Ordinal)));
    }

    /// <summary>MIT, BSD and Apache ask for their text in every copy, EPL for the place of the source, Skia for the notices of what it
    /// holds.</summary>
    [Theory]
    [InlineData("NOTICE.md", "Permission is hereby granted, free of charge")]
    [InlineData("NOTICE.md", "Redistributions in binary form must reproduce")]
    [InlineData("NOTICE.md", "TERMS AND CONDITIONS FOR USE, REPRODUCTION, AND DISTRIBUTION")]
    [InlineData("NOTICE.md", "Permission to use, copy, modify, and/or distribute this software")]
    [InlineData("NOTICE.md", "https://github.com/coin-or")]
    [InlineData("NOTICE.md", "Met Eireann does not accept any liability")]
    [InlineData("NOTICE.md", "NASA Langley Research Center (LaRC) POWER Project")]
    [InlineData("THIRD-PARTY.md", "PDFsharp")]
    [InlineData("LICENSE", "MIT License")]
    [InlineData("notices/SkiaSharp.txt", "libpng")]
    public void Notices_go_with_the_program(string file, string text) =>
        Assert.Contains(text, File.ReadAllText(Path.Combine(AppContext.BaseDirectory, file)), StringComparison.OrdinalIgnoreCase);

    /// <summary>Its fonts come from an old phone SDK and are not free to pass on.</summary>
    [Fact]
    public void The_font_assembly_of_the_pdf_library_does_not_ship()
    {
        Assert.Empty(Directory.EnumerateFiles(AppContext.BaseDirectory, "*WPFonts*", SearchOption.AllDirectories));
        Assert.DoesNotContain(
            "WPFonts", File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "valvewright.deps.json")), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_package_version_is_wanted_by_a_project()
    {
        // Pinned for what one of the packages brings along; see there.
        string[] broughtAlong = ["Google.Protobuf"];
        string projects = string
            .Concat(Tree.Files.Where(f => Path.GetExtension(f) is ".csproj" || f == "tests/Directory.Build.props").Select(Tree.Read));
        IEnumerable<string> versions = PackageVersion().Matches(Tree.Read("Directory.Packages.props")).Select(m => m.Groups[1].Value);
        Assert.Empty(versions
            .Where(v => !broughtAlong.Contains(v) && !projects.Contains($"PackageReference Include=\"{v}\"", StringComparison.Ordinal)));
    }

    [GeneratedRegex(
        @"(?<![\w.:/{}-])/(?:work|root|tmp|home|Users|mnt)/\w+|https?://(?:10|192\.168)\.\d|https?://[^\s/""]+\.(?:internal|corp|lan|local)\b")]
    private static partial Regex MachinePath();

    [GeneratedRegex(@"<PackageVersion Include=""([^""]+)""")]
    private static partial Regex PackageVersion();
}
