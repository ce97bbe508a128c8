using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Weather;

/// <summary>Daily weather of one station or grid point: rising dates, each at most once; dates may be absent.</summary>
/// <param name="Station">The station's name or the grid point.</param>
/// <param name="Place">Where it stands.</param>
/// <param name="WindHeightM">Height of the wind measurement above ground.</param>
/// <param name="Days">The days, by rising date.</param>
/// <param name="Source">Who publishes it, with the licence where known.</param>
public sealed record WeatherRecord(string Station, Place Place, double WindHeightM, ListOf<DailyWeather> Days, string Source)
{
    /// <summary>Whether it says nothing of where its station stands, or not how high, and the site's own place stands for it.</summary>
    public bool IsPlaceAssumed { get; init; }

    /// <summary>Whether neither the file nor the person says how high the wind is measured, and a usual height stands for it.</summary>
    public bool IsWindHeightAssumed { get; init; }

    /// <summary>Choices for reference ET that go with this record, as its survey states them.</summary>
    public EtoOptions Eto { get; init; } = EtoOptions.Default;
}
