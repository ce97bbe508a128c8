using Valvewright.Cli.Output;

namespace Valvewright.Cli.Tests.Output;

public class ProgressTests
{
    [Fact]
    public async Task SaysNothingInTheFirstSecondAndThenWhatItDoes()
    {
        using StringWriter error = new();
        using (Progress quick = new(error, wanted: true, live: false))
        {
            quick.Step("Reading");
        }

        Assert.Empty(error.ToString());
        using (Progress slow = new(error, wanted: true, live: false))
        {
            slow.Step("Planning");
            await Task.Delay(1500);
        }

        Assert.Equal("Planning ...\n", error.ToString());
    }

    [Fact]
    public async Task SaysNothingWhereNobodyLooks()
    {
        using StringWriter error = new();
        using (Progress progress = new(error, wanted: false, live: false))
        {
            progress.Step("Planning");
            await Task.Delay(1200);
        }

        Assert.Empty(error.ToString());
    }
}
