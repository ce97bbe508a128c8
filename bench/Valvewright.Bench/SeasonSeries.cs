using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;
using Valvewright.Files.Weather;

namespace Valvewright.Bench;

/// <summary>The kind of summer, for which the goals differ.</summary>
internal enum Summer
{
    /// <summary>Rain lacks when plants need it most.</summary>
    Dry,

    /// <summary>Rain falls all year.</summary>
    Humid,
}

/// <summary>A weather file of the reference folder, and what the file does not say.</summary>
internal sealed record SeasonSeries(string File, Place Place, double WindHeightM, Summer Summer)
{
    /// <summary>The file's name, short enough for a table.</summary>
    public string ShortName
    {
        get
        {
            string name = Path.GetFileNameWithoutExtension(File).Split('_')[^1].Replace("2012-2015", "").Trim('_');
            return name == "vega" ? "seattle" : name[..Math.Min(name.Length, 11)];
        }
    }

    /// <summary>Every daily series with rain; Fallon has no rain column. Places: reference/weather/README.md.</summary>
    public static IReadOnlyList<SeasonSeries> All { get; } =
    [
        new("azmet_06_maricopa.csv", new Place(33.069, -111.97, 361), 3, Summer.Dry),
        new("nasapower_lankaran-hills.csv", new Place(38.298, 48.847, 720), 2, Summer.Dry),
        new("noaa_seattle_2012-2015_vega.csv", new Place(47.45, -122.31, 122), 10, Summer.Dry),
        new("meteoswiss_REH.csv", new Place(47.428, 8.518, 444), 10, Summer.Humid),
        new("knmi_260_debilt.csv", new Place(52.10, 5.18, 1.9), 10, Summer.Humid),
        new("meteireann_575_moorepark.csv", new Place(52.164, -8.264, 46), 10, Summer.Humid),
        new("ghcnd_ottawa-cda.csv", new Place(45.383, -75.717, 79), 10, Summer.Humid),
    ];

    /// <summary>Reads the file and fills its gaps.</summary>
    /// <exception cref="InvalidDataException">The file cannot be read.</exception>
    public BuiltClimate Read(string folder)
    {
        WeatherReading reading = WeatherFiles.Read(
            Path.Combine(folder, File), new WeatherReadOptions { Place = Place, WindHeightM = WindHeightM, Units = UnitSystem.Metric });
        return reading.Ok
            ? ClimateBuilder.Build(reading.Record)
            : throw new InvalidDataException(string.Join(Environment.NewLine, reading.Problems));
    }
}
