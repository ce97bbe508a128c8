using System.Text;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Tests.Surveys;

/// <summary>Things that are no site file at all, or one in another encoding.</summary>
public sealed class BadFiles : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("valvewright-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void An_empty_file() => Assert.Equal("an empty file", Only(Write([])).Found);

    [Fact]
    public void A_blank_file() => Assert.Equal("a blank file", Only(Write("  \n\n"u8.ToArray())).Found);

    [Fact]
    public void Comments_only() => Assert.Equal("comments only", Only(Write("# nothing\n"u8.ToArray())).Found);

    [Fact]
    public void No_file()
    {
        Problem problem = Only(Path.Combine(folder, "none.yaml"));
        Assert.Equal("File not found", problem.Message);
        Assert.Equal(0, problem.Line);
    }

    [Fact]
    public void A_folder_in_place_of_a_file() => Assert.Equal("a folder", Only(folder).Found);

    [Fact]
    public void A_folder_that_holds_a_site_file_stands_for_it()
    {
        File.WriteAllText(Path.Combine(folder, SurveyFiles.UsualName), SmallSite.Text);
        Assert.NotNull(SurveyFiles.Read(folder).Site);
    }

    [Fact]
    public void A_hundred_megabytes_are_refused_unread()
    {
        string path = Path.Combine(folder, "large.yaml");
        using (FileStream large = File.Create(path)) large.SetLength(100_000_000);
        Assert.Equal("100000000 bytes", Only(path).Found);
    }

    [Fact]
    public void Noise_is_refused_with_a_place()
    {
        byte[] noise = new byte[10_000];
        new Random(7).NextBytes(noise);
        Assert.True(Only(Write(noise)).Line > 0);
    }

    [Theory]
    [InlineData("utf-8")]
    [InlineData("utf-16")]
    [InlineData("utf-16BE")]
    [InlineData("utf-32")]
    public void Text_with_a_byte_order_mark_is_read(string name)
    {
        Encoding encoding = Encoding.GetEncoding(name);
        Assert.NotNull(SurveyFiles.Read(Write([.. encoding.GetPreamble(), .. encoding.GetBytes(SmallSite.Text)])).Site);
    }

    [Fact]
    public void UTF_16_without_a_mark_is_refused_plainly()
    {
        SurveyReading reading = SurveyFiles.Read(Write(Encoding.Unicode.GetBytes(SmallSite.Text)));
        Assert.Null(reading.Site);
        Assert.Contains("UTF-8", reading.Problems[0].Expected, StringComparison.Ordinal);
    }

    [Fact]
    public void Latin_1_is_refused_where_it_first_shows()
    {
        Problem problem = Only(Write(Encoding.Latin1.GetBytes("site: Test\nunits: métrique\n")));
        Assert.Equal((2, 9), (problem.Line, problem.Column));
        Assert.Equal("byte E9", problem.Found);
        Assert.Equal("text saved as UTF-8", problem.Expected);
    }

    [Theory]
    [InlineData("just words")]
    [InlineData("- a\n- list\n")]
    [InlineData("site: [open\n")]
    [InlineData("site: \"open\n")]
    [InlineData("? [complex, key]\n: value\n")]
    [InlineData("site: a\n---\nsite: b\n")]
    [InlineData("%YAML 9.9\n---\nsite: a\n")]
    [InlineData("site: !!binary aGVsbG8=\n")]
    public void What_is_no_site_is_no_site(string text)
    {
        SurveyReading reading = SurveyFiles.Parse(text, "site.yaml");
        Assert.Null(reading.Site);
        Assert.NotEmpty(reading.Problems);
    }

    [Fact]
    public void A_thousand_levels_are_refused_and_so_is_a_bomb_of_aliases()
    {
        Assert.Contains("nested too deeply", SurveyFiles.Parse("a: " + new string('[', 1000), "site.yaml").Problems[0].Message,
            StringComparison.Ordinal);
        StringBuilder bomb = new("a: &a [x,x,x,x,x,x,x,x,x]\n");
        for (char level = 'b'; level <= 'z'; level++) bomb
            .Append($"{level}: &{level} [{string.Join(',', Enumerable.Repeat($"*{(char)(level - 1)}", 9))}]\n");
        Problem problem = Assert.Single(SurveyFiles.Parse(bomb.ToString(), "site.yaml").Problems);
        Assert.Equal((1, 4), (problem.Line, problem.Column));
    }

    /// <summary>Whatever a file of the largest size holds, it is read no further than the number of values that is allowed.</summary>
    [Theory]
    [InlineData("site: a\ncontrollers:\n", "  - name: c\n    profile: 4 stations, 2 programs, 4 starts\n", 2.5)]
    [InlineData("site: a\n", "key: value\n", 2)]
    [InlineData("site: [\n", " 1,\n", 1)]
    public void A_file_with_too_many_values_is_read_no_further(string begin, string again, double valuesInLine)
    {
        string text = begin + string.Concat(Enumerable.Repeat(again, 1_900_000 / again.Length));
        Problem problem = Assert.Single(SurveyFiles.Parse(text, "site.yaml").Problems);
        Assert.StartsWith("The file has too many values", problem.Message, StringComparison.Ordinal);
        Assert.InRange(problem.Line, (int)(YamlTree.MostValues / valuesInLine) - 10, (int)(YamlTree.MostValues / valuesInLine) + 10);
    }

    private static Problem Only(string path)
    {
        SurveyReading reading = SurveyFiles.Read(path);
        Assert.Null(reading.Site);
        return Assert.Single(reading.Problems);
    }

    private string Write(byte[] bytes)
    {
        string path = Path.Combine(folder, "survey.yaml");
        File.WriteAllBytes(path, bytes);
        return path;
    }
}
