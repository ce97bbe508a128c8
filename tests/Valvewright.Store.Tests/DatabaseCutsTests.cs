using Valvewright.Tests.Databases;

namespace Valvewright.Store.Tests;

/// <summary>A few here; <c>bench -- database-cut</c> does as many as one likes.</summary>
public sealed class DatabaseCutsTests
{
    [Fact]
    public void A_database_that_is_killed_while_it_is_written_to_loses_nothing_that_was_said_to_be_kept()
    {
        DatabaseCutsOutcome outcome = PostgresCuts.Run(kills: 5, seed: 1);
        Assert.Empty(outcome.Faults);
        Assert.Equal((5, 20), (outcome.Kills, outcome.Unanswered));
        Assert.True(outcome.Kept > 25, $"Only {outcome.Kept} changes were made.");
    }
}
