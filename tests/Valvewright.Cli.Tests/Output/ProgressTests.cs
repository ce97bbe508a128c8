using Microsoft.Extensions.Time.Testing;
using Valvewright.Cli.Output;

namespace Valvewright.Cli.Tests.Output;

public sealed class ProgressTests
{
    private readonly FakeTimeProvider time = new();

    [Fact]
    public void SaysNothingInTheFirstSecondAndThenWhatItDoes()
    {
        using StringWriter error = new();
        using (Progress quick = new(error, wanted: true, live: false, time))
        {
            quick.Step("Reading");
            time.Advance(TimeSpan.FromSeconds(0.9));
        }

        Assert.Empty(error.ToString());
        using (Progress slow = new(error, wanted: true, live: false, time))
        {
            slow.Step("Planning");
            time.Advance(TimeSpan.FromSeconds(3));
        }

        Assert.Equal("Planning ...\n", error.ToString());
    }

    [Fact]
    public void CountsTheSecondsOnATerminal()
    {
        using StringWriter error = new();
        using Progress progress = new(error, wanted: true, live: true, time);
        progress.Step("Planning");
        time.Advance(TimeSpan.FromSeconds(1));
        time.Advance(TimeSpan.FromSeconds(1));
        Assert.Equal("\rPlanning ... 1 s\rPlanning ... 2 s", error.ToString());
    }

    [Fact]
    public void SaysNothingWhereNobodyLooks()
    {
        using StringWriter error = new();
        using Progress progress = new(error, wanted: false, live: false, time);
        progress.Step("Planning");
        time.Advance(TimeSpan.FromSeconds(3));
        Assert.Empty(error.ToString());
    }
}
