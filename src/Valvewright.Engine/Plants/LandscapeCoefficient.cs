using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Plants;

/// <summary>Landscape coefficients: plant ET = KL x ETo.</summary>
/// <remarks>
/// KL = species factor x density factor x microclimate factor (University of California Cooperative Extension and
/// California Department of Water Resources, A guide to estimating irrigation water needs of landscape plantings in California, 2000).
/// </remarks>
public static class LandscapeCoefficient
{
    /// <summary>Source of <see cref="TurfByMonth"/>.</summary>
    public const string TurfSource = "turf by month in California, Meyer et al. 1985, University of California";

    // Meyer, J. L. et al. (1985), Proceedings of the Fifth International Turfgrass Research Conference, 357-364, as the University of
    // California's landscape horticulture pages print it; January to December, north of the equator.
    private static readonly double[] Cool = [.61, .64, .75, 1.04, .95, .88, .94, .86, .74, .75, .69, .60];
    private static readonly double[] Warm = [.61, .54, .76, .72, .79, .68, .71, .71, .62, .54, .58, .55];

    /// <summary>Turf coefficients for January to December; south of the equator the months stand half a year later.</summary>
    public static ListOf<double> TurfByMonth(TurfSeason season, bool south = false)
    {
        double[] north = season == TurfSeason.Cool ? Cool : Warm;
        return Enumerable.Range(0, 12).Select(month => north[south ? (month + 6) % 12 : month]).ToListOf();
    }

    /// <summary>Whether a place lies in California, to about 20 km along its diagonal border.</summary>
    public static bool IsInCalifornia(Place place)
    {
        ArgumentNullException.ThrowIfNull(place);
        (double latitude, double longitude) = (place.LatitudeDeg, place.LongitudeDeg);
        double east = latitude >= 39 ? -120 : latitude >= 35 ? -120 + ((39 - latitude) * (120 - 114.63) / 4) : -114.4;
        return latitude is >= 32.53 and <= 42 && longitude >= -124.5 && longitude <= east;
    }

    /// <summary>The same coefficient all year.</summary>
    public static ListOf<double> AllYear(double coefficient) => Enumerable.Repeat(coefficient, 12).ToListOf();

    /// <summary>KL from its three factors.</summary>
    public static double Of(double species, double density, double microclimate) => species * density * microclimate;

    /// <summary>Species factor of a water-use class.</summary>
    /// <remarks>
    /// The classes of the same guide's list of species (WUCOLS): moderate .40-.60 verified; very low under .10, low .10-.30,
    /// high .70-.90 not checked against the printed source. The middle of the class is taken, of "very low" its upper end.
    /// </remarks>
    public static double SpeciesFactor(WaterUse use) => use switch
    {
        WaterUse.VeryLow => .10,
        WaterUse.Low => .20,
        WaterUse.Moderate => .50,
        _ => .80,
    };

    /// <summary>Density factor: .5-.9 sparse, 1 average, 1.1-1.3 dense (ranges not checked against the printed source); the middle of
    /// each.</summary>
    public static double DensityFactor(Density density) => density switch { Density.Sparse => .7, Density.Dense => 1.2, _ => 1 };

    /// <summary>Microclimate factor: .5-.9 sheltered, 1 average, 1.1-1.4 exposed (ranges not checked against the printed source); the
    /// middle of each.</summary>
    public static double MicroclimateFactor(Microclimate microclimate) =>
        microclimate switch { Microclimate.Sheltered => .7, Microclimate.Exposed => 1.25, _ => 1 };
}

/// <summary>Classes of water use by species.</summary>
public enum WaterUse
{
    /// <summary>Less than .10 of ETo.</summary>
    VeryLow,

    /// <summary>.10 to .30 of ETo.</summary>
    Low,

    /// <summary>.40 to .60 of ETo.</summary>
    Moderate,

    /// <summary>.70 to .90 of ETo.</summary>
    High,
}

/// <summary>How much leaf a planting has.</summary>
public enum Density
{
    /// <summary>New or thinly planted.</summary>
    Sparse,

    /// <summary>One full layer of leaves.</summary>
    Average,

    /// <summary>Several layers: trees over shrubs over groundcover.</summary>
    Dense,
}

/// <summary>What surrounds a planting.</summary>
public enum Microclimate
{
    /// <summary>Shaded, out of the wind.</summary>
    Sheltered,

    /// <summary>Like the weather station's.</summary>
    Average,

    /// <summary>Beside paving and walls, or in strong wind.</summary>
    Exposed,
}
