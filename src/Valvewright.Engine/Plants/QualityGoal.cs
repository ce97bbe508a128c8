namespace Valvewright.Engine.Plants;

/// <summary>What a wish for quality means in numbers.</summary>
/// <param name="WeightFactor">Times the site's weight of unmet use.</param>
/// <param name="LeastUseMet">The part of the low quarter's use that a plan must meet in years it was not made with.</param>
/// <remarks>
/// The shares follow deficit trials: tall fescue kept its look at 60 to 80 % of actual ET, bermuda at 60 %, zoysia at 80 %, bluegrass
/// needed 100 % (Fu, Fry and Huang 2004, HortScience 39:1740); deficit over optimum irrigation is 0.67 for warm-season and 0.75 for
/// cool-season turf (UC ANR 8395); zoysia declined slowly at 20 to 30 % (Hong, Bremer and Keeley 2020). The factors are a preference.
/// </remarks>
public readonly record struct QualityGoal(double WeightFactor, double LeastUseMet)
{
    /// <summary>The goal of a quality.</summary>
    public static QualityGoal Of(PlantQuality quality) => quality switch
    {
        PlantQuality.High => new(2.5, 0.97),
        PlantQuality.Acceptable => new(0.6, 0.75),
        PlantQuality.Survival => new(0.4, 0.30),
        _ => new(1, 0.90),
    };
}
