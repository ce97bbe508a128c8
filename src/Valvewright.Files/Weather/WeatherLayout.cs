namespace Valvewright.Files.Weather;

/// <summary>The layouts of daily weather files that can be read.</summary>
public enum WeatherLayout
{
    /// <summary>One row a day, named columns with their units in the header.</summary>
    PlainCsv,

    /// <summary>NOAA GHCN-Daily fixed-width file (.dly).</summary>
    GhcnDaily,

    /// <summary>NOAA GHCN-Daily CSV as ordered online: one row a day, units chosen by the customer and not stated.</summary>
    GhcnOrderCsv,

    /// <summary>NOAA GHCN-Daily CSV by year or station: one row per day and element, in tenths.</summary>
    GhcnLongCsv,

    /// <summary>NOAA GHCN-Daily CSV by station with flag columns: one row a day, in tenths.</summary>
    GhcnAccessCsv,

    /// <summary>NASA POWER daily CSV, with or without its header block.</summary>
    NasaPowerCsv,

    /// <summary>NASA POWER daily table parted by blanks.</summary>
    NasaPowerText,

    /// <summary>NASA POWER daily GeoJSON.</summary>
    NasaPowerJson,

    /// <summary>Open-Meteo JSON with daily values.</summary>
    OpenMeteoJson,

    /// <summary>California DWR CIMIS daily CSV, metric or US.</summary>
    CimisCsv,

    /// <summary>MeteoSwiss open data, daily CSV.</summary>
    MeteoSwissCsv,

    /// <summary>KNMI daily values of a weather station.</summary>
    KnmiDaily,

    /// <summary>Met Eireann daily CSV.</summary>
    MetEireannCsv,

    /// <summary>University of Arizona AZMET raw daily data.</summary>
    AzmetDaily,

    /// <summary>US Bureau of Reclamation AgriMet daily data.</summary>
    AgriMetDaily,

    /// <summary>EnergyPlus weather file, hourly.</summary>
    EnergyPlusWeather,

    /// <summary>Any delimited table whose columns a person names.</summary>
    NamedColumns,
}

/// <summary>The layouts' names as a person writes and reads them.</summary>
public static class WeatherLayouts
{
    private static readonly (WeatherLayout Layout, string Word, string Title)[] All =
    [
        (WeatherLayout.PlainCsv, "plain-csv", "plain CSV with units in its header"),
        (WeatherLayout.GhcnDaily, "ghcn-dly", "NOAA GHCN-Daily .dly"),
        (WeatherLayout.GhcnOrderCsv, "ghcn-order-csv", "NOAA GHCN-Daily order CSV"),
        (WeatherLayout.GhcnLongCsv, "ghcn-long-csv", "NOAA GHCN-Daily CSV, one element a row"),
        (WeatherLayout.GhcnAccessCsv, "ghcn-access-csv", "NOAA GHCN-Daily station CSV with flags"),
        (WeatherLayout.NasaPowerCsv, "nasa-power-csv", "NASA POWER daily CSV"),
        (WeatherLayout.NasaPowerText, "nasa-power-text", "NASA POWER daily text table"),
        (WeatherLayout.NasaPowerJson, "nasa-power-json", "NASA POWER daily JSON"),
        (WeatherLayout.OpenMeteoJson, "open-meteo-json", "Open-Meteo daily JSON"),
        (WeatherLayout.CimisCsv, "cimis-csv", "CIMIS daily CSV"),
        (WeatherLayout.MeteoSwissCsv, "meteoswiss-csv", "MeteoSwiss daily CSV"),
        (WeatherLayout.KnmiDaily, "knmi-daily", "KNMI daily values"),
        (WeatherLayout.MetEireannCsv, "met-eireann-csv", "Met Eireann daily CSV"),
        (WeatherLayout.AzmetDaily, "azmet-daily", "AZMET raw daily data"),
        (WeatherLayout.AgriMetDaily, "agrimet-daily", "AgriMet daily data"),
        (WeatherLayout.EnergyPlusWeather, "epw", "EnergyPlus weather file"),
        (WeatherLayout.NamedColumns, "named-columns", "a table with the columns named"),
    ];

    /// <summary>Every word that names a layout.</summary>
    public static IEnumerable<string> Words => All.Select(entry => entry.Word);

    /// <summary>The word for a layout.</summary>
    public static string Word(this WeatherLayout layout) => Entry(layout).Word;

    /// <summary>The layout in plain words.</summary>
    public static string Title(this WeatherLayout layout) => Entry(layout).Title;

    /// <summary>The layout of that word, or null.</summary>
    public static WeatherLayout? Named(string word) =>
        All.Where(entry => entry.Word.Equals(word, StringComparison.OrdinalIgnoreCase)).Select(entry => (WeatherLayout?)entry.Layout)
            .FirstOrDefault();

    private static (WeatherLayout Layout, string Word, string Title) Entry(WeatherLayout layout) =>
        Array.Find(All, entry => entry.Layout == layout);
}
