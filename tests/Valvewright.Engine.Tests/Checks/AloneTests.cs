using Valvewright.Engine.Checks;

namespace Valvewright.Engine.Tests.Checks;

public class AloneTests
{
    [Fact]
    public void A_sound_reading_is_not_blamed() => Assert.Empty(CheckSite.Check(CheckSite.Sound, null).Findings);

    [Theory]
    [InlineData("A: starts 5:00 5:10 5:20 5:30; daily; stations 1=10 2=10 3=10 4=10", FindingKind.StartsUsedAsStations)]
    [InlineData("A: starts 5:00 5:12 5:20; daily; stations 1=12 2=8 3=10", FindingKind.StartsUsedAsStations)]
    [InlineData("A: starts 5:00; days none; stations 1=10", FindingKind.EmptyPart)]
    [InlineData("A: starts none; daily; stations 1=10", FindingKind.EmptyPart)]
    [InlineData("A: starts 5:00; daily; stations none", FindingKind.EmptyPart)]
    [InlineData("A: starts 5:00 5:15; daily; stations 1=10 2=10", FindingKind.Overlap)]
    [InlineData("A: starts 17:00; daily; stations 1=10 2=10", FindingKind.HalfDaySlip)]
    [InlineData("A: starts 8:50; daily; stations 1=10 2=10", FindingKind.OutsideHours)]
    [InlineData("A: odd", FindingKind.OddOnThe31st)]
    [InlineData("A: every 3 days, 4 left", FindingKind.IntervalWrongDay)]
    [InlineData("A: starts 5:00; daily; stations 1=10; B: starts 6:00; daily; stations 1=10", FindingKind.StationInTwoPrograms)]
    [InlineData("off", FindingKind.OffLeftOn)]
    [InlineData("hold 3", FindingKind.RainHoldLeft)]
    [InlineData("clock Tue 3:20", FindingKind.ClockWrong)]
    [InlineData("40 %", FindingKind.PercentOutOfSeason)]
    public void One_slip_is_named(string text, FindingKind kind) => Assert.Equal(kind, CheckSite.Check(text, null).Findings[0].Kind);

    /// <summary>Lawn: 12 mm/h on 15 mm/h intake never runs off; at four times the rate the surface holds 6 mm, 60 * 6 / (48 - 15) = 10.9
    /// minutes (SWAT protocol, from memory).</summary>
    [Theory]
    [InlineData(10, false)]
    [InlineData(15, true)]
    public void Run_times_beyond_the_longest_cycle_run_off(int minutes, bool blamed)
    {
        CheckResult result = Check.Of(
            CheckSite.Site,
            CheckSite.North with
                { Zones = [.. CheckSite.North.Zones
                    .Select(z => z with { Emission = z.Emission with { PrecipitationRateMmPerHour = 48 } })] },
            null,
            Engine.Readings.ReadingText.Parse($"A: stations 1={minutes}").Reading,
            new CheckContext(CheckSite.At));
        Assert.Equal(blamed, result.Findings.Any(f => f.Kind == FindingKind.RunsOff));
    }

    [Fact]
    public void A_start_for_a_station_that_the_program_leaves_out_is_the_classic_too() =>
        Assert.Equal(
            FindingKind.StartsUsedAsStations,
            CheckSite.Check("A: starts 5:00 5:10 5:20 5:30; daily; stations 1=10 2=10 3=10", null).Findings[0].Kind);

    [Fact]
    public void Cycles_with_soak_between_are_not_the_classic() =>
        Assert.Empty(CheckSite.Check("A: starts 4:00 5:00 6:00; daily; stations 1=10 2=10 3=10", null).Findings);

    [Fact]
    public void A_program_given_up_does_no_harm_while_its_stations_run_elsewhere() =>
        Assert.Empty(CheckSite.Check("A: starts 5:00; daily; stations 1=10; B: starts none; days none; stations 1=10", null).Findings);
}
