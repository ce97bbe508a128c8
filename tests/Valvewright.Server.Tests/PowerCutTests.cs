using Valvewright.Tests.Serving;

namespace Valvewright.Server.Tests;

/// <summary>A few of each here; <c>bench -- power-cut</c> and <c>bench -- crowd</c> do as many as one likes.</summary>
public sealed class PowerCutTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("valvewright-cuts-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task A_server_that_is_killed_while_it_writes_loses_nothing_that_it_said_was_kept()
    {
        CutsOutcome outcome = await PowerCuts.Run(folder, kills: 12, seed: 1);
        Assert.Empty(outcome.Faults);
        Assert.True(outcome.Kept > 5, $"Only {outcome.Kept} changes were made.");
    }

    [Fact]
    public async Task Twenty_who_write_at_once_lose_nothing()
    {
        CrowdOutcome outcome = await Crowd
            .Run(folder, people: 20, (kept, shared, refused) => kept >= 200 && shared >= 20 && refused >= 10, seed: 1);
        Assert.Empty(outcome.Faults);
    }
}
