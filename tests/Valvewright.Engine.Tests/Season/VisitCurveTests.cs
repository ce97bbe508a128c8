using NodaTime;
using Valvewright.Engine.Season;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Season;

/// <summary>What a visit is worth, on curves whose knee can be seen.</summary>
public sealed class VisitCurveTests
{
    private static SeasonPlan Season(int visits, double cost, double waterM3 = 0, double? most = null) => new()
    {
        Dates = Enumerable.Range(1, visits).Select(m => new AnnualDate(m, 1)).ToListOf(),
        Controllers = [],
        CostLitres = cost,
        BoundLitres = null,
        WaterM3 = waterM3,
        MinimumM3 = 10,
        UseMet = 0.9,
        ShortLitres = 0,
        Options = new SeasonOptions { Goal = most is { } share ? new Goal.UnmetWithin(share) : null },
    };

    [Fact]
    public void The_knee_is_where_the_curve_bends()
    {
        // Falls by 100 twice, then by 1: of the line from (1, 300) to (6, 97), the third lies farthest below.
        VisitCurve curve = VisitCurve.Of([Season(1, 300), Season(2, 200), Season(3, 100), Season(4, 99), Season(5, 98), Season(6, 97)]);
        Assert.Equal(3, curve.KneeVisits);
        Assert.Equal([double.NaN, 100, 100, 1, 1, 1], curve.Steps.Select(s => s.SavedLitres));
    }

    [Fact]
    public void A_curve_without_a_bend_asks_for_the_fewest_visits()
    {
        Assert.Equal(1, VisitCurve.Of([Season(1, 100), Season(2, 100), Season(3, 100)]).KneeVisits);
        Assert.Equal(1, VisitCurve.Of([Season(1, 30), Season(2, 20), Season(3, 10)]).KneeVisits);
        Assert.Equal(2, VisitCurve.Of([Season(2, 30)]).KneeVisits);
    }

    [Fact]
    public void Within_a_limit_of_unmet_use_the_water_is_compared()
    {
        VisitCurve curve = VisitCurve.Of([Season(1, 5, 90, 0.05), Season(2, 900, 40, 0.05), Season(3, 1, 39, 0.05)]);
        Assert.Equal(2, curve.KneeVisits);
        Assert.Equal(50, curve.StepOf(2)!.WaterSavedM3);
        Assert.Equal(4, curve.StepOf(2)!.WaterRatio);
        Assert.Null(curve.StepOf(4));
    }

    [Fact]
    public void Seasons_must_rise()
    {
        Assert.Throws<ArgumentException>(() => VisitCurve.Of([]));
        Assert.Throws<ArgumentException>(() => VisitCurve.Of([Season(2, 1), Season(2, 1)]));
    }
}
