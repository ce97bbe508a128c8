using Valvewright.Engine.Audit;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Audit;

public sealed class AuditConfidenceTests
{
    /// <summary>For normal depths DUlq = 1 - 1.271 CV (mean of the lowest quarter of a standard normal is -1.271).</summary>
    [Theory]
    [InlineData(24, 0.55)]
    [InlineData(24, 0.75)]
    [InlineData(48, 0.65)]
    public void The_interval_holds_the_true_uniformity_in_about_19_of_20_audits(int cans, double uniformity)
    {
        SeededDraws draws = new(42);
        double variation = (1 - uniformity) / 1.271;
        int held = 0;
        const int Audits = 200;
        for (int audit = 0; audit < Audits; audit++)
        {
            ListOf<double> readings = Enumerable.Range(0, cans)
                .Select(_ => Math.Max(0, 10 * (1 + (variation * draws.Normal())))).ToListOf();
            Interval95 interval = AuditConfidence.Of(new CatchCans(readings, 10, 1)).LowQuarterUniformity;
            if (interval.Low <= uniformity && uniformity <= interval.High) held++;
        }

        Assert.InRange(held / (double)Audits, 0.86, 0.99);
    }

    [Fact]
    public void More_cans_buy_a_narrower_interval()
    {
        CatchCans cans = new([.57, .69, .83, .65, .61, .38, .27, .64, .51, .26, .36, .52, .79, .65, .61, .86], 60, 25.4);
        AuditConfidence confidence = AuditConfidence.Of(cans);
        Assert.Equal([24, 32, 48], confidence.MoreCans.Select(m => m.Cans));
        Assert.True(confidence.MoreCans[0].HalfWidth < confidence.LowQuarterUniformity.HalfWidth);
        Assert.True(confidence.MoreCans[2].HalfWidth < confidence.MoreCans[1].HalfWidth);
        Assert.Equal(AuditConfidence.Of(cans), confidence);
        Assert.True(confidence.NetRateMmPerHour.Low < cans.NetRateMmPerHour && cans.NetRateMmPerHour < confidence.NetRateMmPerHour.High);
    }

    [Fact]
    public void Equal_cans_leave_no_doubt()
    {
        AuditConfidence confidence = AuditConfidence.Of(new CatchCans(Enumerable.Repeat(5.0, 24).ToListOf(), 10, 1));
        Assert.Equal(1, confidence.LowQuarterUniformity.Low, 9);
        Assert.Equal(1, confidence.LowQuarterUniformity.High, 9);
    }
}
