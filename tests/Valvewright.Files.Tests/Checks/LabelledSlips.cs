using Valvewright.Engine.Checks;
using Valvewright.Tests.Slips;

namespace Valvewright.Files.Tests.Checks;

/// <summary>The labelled set of the benchmark in small: slips on the planner's plans for the demo sites, made and labelled without the
/// check's own code.</summary>
public class LabelledSlips
{
    private const int Seed = 31;

    [Theory]
    [InlineData(1, 4)]
    [InlineData(2, 2)]
    [InlineData(3, 2)]
    public void Are_named_first_and_among_the_first_three(int slips, int perKind)
    {
        SlipCase[] cases = [.. SlipSet.Faulty(perKind, slips, Seed)];
        int first = 0, three = 0;
        foreach (SlipCase one in cases)
        {
            CheckResult result = Check.Of(one.Site, one.Controller, one.Plan, one.Reading, new CheckContext(one.At));
            first += result.Findings.Count > 0 && one.Labels.Any(l => l.IsNamedBy(result.Findings[0])) ? 1 : 0;
            three += one.Labels.All(l => result.Findings.Take(3).Any(l.IsNamedBy)) ? 1 : 0;
        }

        Assert.True(cases.Length >= 18 * perKind, $"only {cases.Length} cases");
        Assert.True(first >= 0.95 * cases.Length, $"{first} of {cases.Length} named first");
        Assert.True(three >= 0.95 * cases.Length, $"{three} of {cases.Length} among the first three");
    }

    [Fact]
    public void A_sound_reading_is_never_blamed() =>
        Assert.All(SlipSet.Sound(200, Seed), one =>
            Assert.Empty(Check.Of(one.Site, one.Controller, one.Plan, one.Reading, new CheckContext(one.At)).Findings));

    /// <summary>Keyed in as the finding says, the controller holds what the plan wants: a second check finds nothing.</summary>
    [Fact]
    public void What_mends_a_slip_mends_it()
    {
        foreach (SlipCase one in SlipSet.Faulty(2, 2, Seed + 1))
        {
            CheckResult result = Check.Of(one.Site, one.Controller, one.Plan, one.Reading, new CheckContext(one.At));
            Assert.All(result.Findings, f => Assert.NotEmpty(f.Mend));
            Engine.Readings.Reading mended = Rekeyed.After(one, result.Findings.SelectMany(f => f.Mend));
            CheckResult again = Check.Of(one.Site, one.Controller, one.Plan, mended, new CheckContext(one.At));
            Assert.True(again.Findings.Count == 0, $"{one}\n{string.Join("\n", again.Findings.Select(f => f.Explanation))}");
        }
    }
}
