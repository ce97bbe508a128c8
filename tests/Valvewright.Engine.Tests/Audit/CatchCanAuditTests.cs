using Valvewright.Engine.Audit;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Audit;

public sealed class CatchCanAuditTests
{
    // NC Cooperative Extension AG-553-1, sixteen cans, inches; it prints no answers, the figures below were worked by hand.
    private static readonly ListOf<double> Extension = [.57, .69, .83, .65, .61, .38, .27, .64, .51, .26, .36, .52, .79, .65, .61, .86];
    private static readonly CatchCans Cans = new(Extension, 60, 25.4);

    /// <summary>By hand: the lower eight of the sixteen are .26 .27 .36 .38 .51 .52 .57 .61, mean .435, over .575: 75.7%.</summary>
    [Fact]
    public void The_lower_half_is_worked_by_hand() => Assert.Equal(75.65, 100 * new CatchCanAudit(Cans, []).LowHalfUniformity, 0.05);

    [Fact]
    public void Of_an_odd_count_the_middle_can_counts_half() =>
        Assert.Equal((1 + 2 + 1.5) / 2.5 / 3, new CatchCanAudit(new CatchCans([1, 2, 3, 4, 5], 10, 1), []).LowHalfUniformity, 12);

    [Fact]
    public void The_driest_cans_are_the_low_quarter() => Assert.Equal([9, 6, 10, 5], new CatchCanAudit(Cans, []).DriestCans);

    [Fact]
    public void More_water_than_fell_is_doubted_and_says_what_to_check()
    {
        CatchCanAudit audit = new(Cans, [], GrossRateMmPerHour: 10);
        Assert.Contains("can opening", Assert.Single(audit.Doubts).Why.Text, StringComparison.Ordinal);
        Assert.Empty(new CatchCanAudit(Cans, [], GrossRateMmPerHour: 16).Doubts);
    }

    [Fact]
    public void One_can_far_above_the_others_is_doubted_by_its_number()
    {
        CatchCanAudit audit = new(Cans with { Readings = [.. Extension.Take(15), 8.6] }, []);
        Assert.Equal("cans/16", Assert.Single(audit.Doubts).Where);
    }

    [Fact]
    public void A_uniformity_over_100_percent_is_doubted()
    {
        Assert.NotNull(CatchCanAudit.DoubtOfUniformity(1.05));
        Assert.Null(CatchCanAudit.DoubtOfUniformity(1));
    }

    [Fact]
    public void Few_cans_no_multiple_of_four_and_wind_are_remarked()
    {
        string remarks = string
            .Join('|', new CatchCanAudit(new CatchCans([1, 2, 3, 4, 5, 6], 10, 1), [], WindMps: 4).Remarks.Select(r => r.Text));
        Assert.Contains("6 cans are few", remarks, StringComparison.Ordinal);
        Assert.Contains("no multiple of 4", remarks, StringComparison.Ordinal);
        Assert.Contains("calm air", remarks, StringComparison.Ordinal);
    }

    /// <summary>Repair, by hand: cans below .431 (.26 .27 .36 .38) become the mean of the twelve others (.6608); the low quarter is then
    /// .51 .52 .57 .61.</summary>
    [Fact]
    public void Fixing_the_worst_sprinklers_saves_by_the_share_of_the_low_quarter()
    {
        SprinklerRepair repair = SprinklerRepair.Of(Cans);
        Assert.Equal([9, 6, 10, 5], repair.Cans);
        double after = .5525 / ((7.93 + (4 * .660833333)) / 16);
        Assert.Equal(after, repair.UniformityAfter, 1e-6);
        Assert.Equal((0.4 + (0.6 * repair.UniformityBefore)) / (0.4 + (0.6 * after)), repair.WaterFactor, 1e-6);
    }

    [Fact]
    public void An_even_pattern_has_nothing_to_fix() =>
        Assert.Equal(1, SprinklerRepair.Of(new CatchCans([1, 1, 1, 1.1], 10, 1)).WaterFactor);

    /// <summary>96.25 x gpm / square feet and 231 cubic inches per gallon: the meter's rate is the flow's (common practice).</summary>
    [Fact]
    public void Ways_to_the_rate_are_compared()
    {
        RateEvidence meter = RateEvidence.OfMeter(400, 10, 160);
        Assert.Equal(15, meter.RateMmPerHour, 9);
        RateEvidence nozzles = RateEvidence.OfNozzles(20, 8, 10);
        Assert.Equal(15, nozzles.RateMmPerHour, 9);
        Assert.Empty(RateEvidence.Disagreements([meter, nozzles]));
        Assert.Single(RateEvidence.Disagreements([meter, RateEvidence.OfEmitters(0.25, 1, 1.5)]));
        RateEvidence cans = RateEvidence.OfCans(Cans);
        Assert.Empty(RateEvidence.Disagreements([new RateEvidence("flow", 16, 0.05), cans]));
        Assert.Single(RateEvidence.Disagreements([new RateEvidence("flow", 30, 0.05), cans]));
        Assert.Single(RateEvidence.Disagreements([new RateEvidence("flow", 9, 0.05), cans]));
    }
}
