using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Weather.Batch;

/// <summary>
/// Many days of many stations, a column an input, all of the same length. Every input is there: what a day lacks has been
/// estimated before, or stands as NaN and gives NaN.
/// </summary>
public readonly ref struct StationDays
{
    /// <summary>Latitude, degrees, -90 to 90.</summary>
    public required ReadOnlySpan<double> LatitudeDeg { get; init; }

    /// <summary>Elevation, m, -500 to 9000.</summary>
    public required ReadOnlySpan<double> ElevationM { get; init; }

    /// <summary>Day of the year, 1 to 366.</summary>
    public required ReadOnlySpan<double> DayOfYear { get; init; }

    /// <summary>Highest temperature, degrees C, -100 to 100.</summary>
    public required ReadOnlySpan<double> TmaxC { get; init; }

    /// <summary>Lowest temperature, degrees C, -100 to 100.</summary>
    public required ReadOnlySpan<double> TminC { get; init; }

    /// <summary>What <see cref="Vapour"/> says: kPa, degrees C, or percent; for the humidity range the highest.</summary>
    public required ReadOnlySpan<double> Humidity { get; init; }

    /// <summary>The lowest relative humidity, percent; looked at only for the humidity range.</summary>
    public ReadOnlySpan<double> LowestHumidity { get; init; }

    /// <summary>How <see cref="Humidity"/> is to be read.</summary>
    public required VapourSource Vapour { get; init; }

    /// <summary>Solar radiation, MJ/m2.</summary>
    public required ReadOnlySpan<double> RadiationMjM2 { get; init; }

    /// <summary>Wind speed at the height of measurement, m/s.</summary>
    public required ReadOnlySpan<double> WindMs { get; init; }

    /// <summary>What wind is multiplied with to be that at 2 m (<see cref="Psychrometrics.WindFactor"/>).</summary>
    public double WindFactor { get; init; } = 1;

    /// <summary>An empty table.</summary>
    public StationDays()
    {
    }

    /// <summary>How many station-days.</summary>
    public int Count => TmaxC.Length;

    /// <summary>Throws where a column is shorter or longer than the others.</summary>
    /// <exception cref="ArgumentException">Lengths differ.</exception>
    internal void AssertEvenLengths(int results)
    {
        int lowest = Vapour == VapourSource.HumidityRange ? LowestHumidity.Length : Count;
        if (LatitudeDeg.Length != Count || ElevationM.Length != Count || DayOfYear.Length != Count || TminC.Length != Count
            || Humidity.Length != Count
            || lowest != Count || RadiationMjM2.Length != Count || WindMs.Length != Count || results != Count)
        {
            throw new ArgumentException($"All columns and the result must hold {Count} station-days, as the highest temperatures do.");
        }
    }
}
