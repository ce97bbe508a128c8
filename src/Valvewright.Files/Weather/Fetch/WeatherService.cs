namespace Valvewright.Files.Weather.Fetch;

/// <summary>The services that daily weather can be fetched from.</summary>
public enum WeatherService
{
    /// <summary>NASA POWER: a grid point's daily values since 1981, no key needed.</summary>
    NasaPower,

    /// <summary>Open-Meteo's archive: a grid point's daily values since 1940, no key needed.</summary>
    OpenMeteo,
}

/// <summary>The services' names as a person writes and reads them.</summary>
public static class WeatherServices
{
    /// <summary>Every word that names a service.</summary>
    public static IReadOnlyList<string> Words { get; } = ["nasa-power", "open-meteo"];

    /// <summary>The word for a service.</summary>
    public static string Word(this WeatherService service) => Words[(int)service];

    /// <summary>The service of that word, or null.</summary>
    public static WeatherService? Named(string word) =>
        Words.ToList().FindIndex(w => w.Equals(word, StringComparison.OrdinalIgnoreCase)) is >= 0 and int index
            ? (WeatherService)index : null;
}
