using System.Globalization;

namespace Valvewright.Files.Weather.Fetch;

/// <summary>Which weather is wanted.</summary>
/// <param name="Service">From whom.</param>
/// <param name="Place">Where; the elevation may be NaN, then the service's own is taken.</param>
/// <param name="From">First day.</param>
/// <param name="To">Last day.</param>
public sealed record FetchRequest(WeatherService Service, Place Place, LocalDate From, LocalDate To)
{
    /// <summary>Name of the answer in the cache: the same question has the same name.</summary>
    public string CacheName => string.Create(
        CultureInfo.InvariantCulture,
        $"{Service.Word()}_{Place.LatitudeDeg:0.0000}_{Place.LongitudeDeg:0.0000}{(KeysElevation ? $"_{Place.ElevationM:0}m" : "")}_{From:uuuuMMdd}_{To:uuuuMMdd}.json");

    // Open-Meteo moves temperatures to the elevation asked for; NASA POWER does not.
    private bool KeysElevation => Service == WeatherService.OpenMeteo && !double.IsNaN(Place.ElevationM);

    /// <summary>The address to ask at.</summary>
    public Uri Address(FetchSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return Service == WeatherService.NasaPower
            ? With(
                settings.NasaPower,
                ("parameters", "T2M_MAX,T2M_MIN,T2MDEW,RH2M,PRECTOTCORR,ALLSKY_SFC_SW_DWN,WS2M"), ("community", "AG"),
                    ("latitude", Number(Place.LatitudeDeg)),
                ("longitude", Number(Place.LongitudeDeg)), ("start", $"{From:uuuuMMdd}"), ("end", $"{To:uuuuMMdd}"), ("format", "JSON"),
                    ("time-standard", "LST"))
            : With(
                settings.OpenMeteo,
                ("latitude", Number(Place.LatitudeDeg)), ("longitude", Number(Place.LongitudeDeg)),
                    ("elevation", KeysElevation ? Number(Place.ElevationM) : ""),
                ("start_date", $"{From:uuuu-MM-dd}"), ("end_date", $"{To:uuuu-MM-dd}"),
                ("daily",
                    "temperature_2m_max,temperature_2m_min,precipitation_sum,relative_humidity_2m_max,relative_humidity_2m_min,dew_point_2m_mean," +
                    "shortwave_radiation_sum,wind_speed_10m_mean,et0_fao_evapotranspiration"),
                ("timezone", "auto"), ("wind_speed_unit", "ms"));
    }

    private static string Number(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);

    private static Uri With(Uri address, params ReadOnlySpan<(string Name, string Value)> query)
    {
        List<string> parts = [];
        foreach ((string name, string value) in query)
        {
            if (value.Length > 0)
            {
                parts.Add($"{name}={Uri.EscapeDataString(value).Replace("%2C", ",", StringComparison.Ordinal)}");
            }
        }

        return new UriBuilder(address) { Query = string.Join('&', parts) }.Uri;
    }
}
