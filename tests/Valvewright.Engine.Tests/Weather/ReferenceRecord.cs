using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Tests;

namespace Valvewright.Engine.Tests.Weather;

/// <summary>Real records of reference/weather, with the places that its README names.</summary>
internal static class ReferenceRecord
{
    /// <summary>Zurich/Affoltern. Source: MeteoSwiss.</summary>
    public static WeatherRecord Zurich() => Read("meteoswiss_REH.csv", new Place(47.428, 8.518, 444), 10, "MeteoSwiss");

    /// <summary>Maricopa. Source: University of Arizona AZMET.</summary>
    public static WeatherRecord Maricopa() =>
        Read("azmet_06_maricopa.csv", new Place(33.069, double.NaN, 361), 3, "University of Arizona AZMET");

    /// <summary>Fallon. Source: US Bureau of Reclamation AgriMet.</summary>
    public static WeatherRecord Fallon() =>
        Read("agrimet_FALN_fallon.csv", new Place(39.4575, -118.774, 1208.5), 3, "US Bureau of Reclamation AgriMet");

    /// <summary>Ottawa CDA, temperatures and rain only. Source: NOAA GHCN-Daily.</summary>
    public static WeatherRecord Ottawa() => Read("ghcnd_ottawa-cda.csv", new Place(45.383, -75.717, 79), 10, "NOAA GHCN-Daily");

    /// <summary>Moore Park, with absent dates. Source: Met Eireann (CC BY 4.0).</summary>
    public static WeatherRecord MoorePark() => Read("meteireann_575_moorepark.csv", new Place(52.164, -8.264, 46), 10, "Met Eireann");

    private static WeatherRecord Read(string file, Place place, double windHeightM, string source)
    {
        string[] lines = File.ReadAllLines(Path.Combine(Checkout.Root, "reference", "weather", file));
        List<string> header = [.. lines[0].Split(',')];
        return new(file, place, windHeightM, lines.Skip(1).Select(Day).ToListOf(), source);

        DailyWeather Day(string line)
        {
            string[] cells = line.Split(',');
            double Cell(string name) => header.IndexOf(name) is >= 0 and int i && cells[i].Length > 0
                ? double.Parse(cells[i], CultureInfo.InvariantCulture) : double.NaN;
            return new(LocalDatePattern.Iso.Parse(cells[0]).Value)
            {
                TmaxC = Cell("tmax_c"),
                TminC = Cell("tmin_c"),
                RainMm = Cell("rain_mm"),
                RhMaxPercent = Cell("rhmax_pct"),
                RhMinPercent = Cell("rhmin_pct"),
                RhMeanPercent = Cell("rhmean_pct"),
                VapourPressureKpa = Cell("ea_kpa"),
                DewPointC = Cell("tdew_c"),
                RadiationMjM2 = Cell("rs_mj_m2"),
                WindMs = Cell("wind_m_s"),
                PublishedEtoMm = Cell("eto_published_mm"),
            };
        }
    }
}
