using Valvewright.Files.Problems;
using Valvewright.Files.Plans;
using Valvewright.Files.Readings;
using Valvewright.Files.Surveys;

namespace Valvewright.Files.Tests.Problems;

/// <summary>Files that never end, and names that look like others.</summary>
public sealed class GivenFileTests
{
    [Fact]
    public void No_more_than_a_limit_is_read()
    {
        using MemoryStream exact = new(new byte[1000]), more = new(new byte[1001]);
        Assert.Equal(1000, GivenFile.ReadBytes(exact, 1000).Length);
        Assert.Throws<IOException>(() => GivenFile.ReadBytes(more, 1000));
    }

    [Fact]
    public void A_device_that_never_ends_is_told_as_a_problem()
    {
        if (!File.Exists("/dev/zero"))
        {
            return;
        }

        Assert.NotEmpty(SurveyFiles.Read("/dev/zero").Problems);
        Assert.NotEmpty(PlanFiles.Read("/dev/zero").Problems);
        Assert.NotEmpty(ReadingFiles.Read("/dev/zero").Problems);
    }

    [Theory]
    [InlineData("exe\\u202Egnp.", false)]
    [InlineData("Gate\\u0007", false)]
    [InlineData("Gate\\u2066", false)]
    [InlineData("Rosé 🌱", true)]
    public void Names_hold_no_characters_that_hide_or_turn(string name, bool holds)
    {
        SurveyReading read = SurveyFiles.ParseApart($"site: \"{name}\"", "site.yaml");
        Assert.Equal(!holds, read.Problems.Any(p => p.Message.Text.Contains("cannot be seen", StringComparison.Ordinal)));
    }
}
