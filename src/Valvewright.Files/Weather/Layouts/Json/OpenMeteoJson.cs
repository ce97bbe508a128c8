using System.Globalization;
using System.Text.Json;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather.Text;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts.Json;

/// <summary>
/// Open-Meteo's JSON with daily values: daily.time and one array per variable beside it, daily_units the unit of each (they can be
/// mixed), null where there is none. Names of both generations are known: windspeed_10m_mean and wind_speed_10m_mean.
/// </summary>
internal static class OpenMeteoJson
{
    public const string Source = "Open-Meteo, CC BY 4.0";
    private const double WindHeightM = 10;

    /// <summary>A day is out of step with the sun when its midnight is further than this from the sun's, h; time zones stay within
    /// 3.5.</summary>
    private const double MostOffsetHours = 3.5;

    private static readonly Dictionary<string, Quantity> Known = new()
    {
        ["temperature2mmax"] = Quantity.TmaxC,
        ["temperature2mmin"] = Quantity.TminC,
        ["precipitationsum"] = Quantity.RainMm,
        ["relativehumidity2mmax"] = Quantity.RhMaxPercent,
        ["relativehumidity2mmin"] = Quantity.RhMinPercent,
        ["relativehumidity2mmean"] = Quantity.RhMeanPercent,
        ["dewpoint2mmean"] = Quantity.DewPointC,
        ["shortwaveradiationsum"] = Quantity.RadiationMjM2,
        ["sunshineduration"] = Quantity.SunshineHours,
        ["windspeed10mmean"] = Quantity.WindMs,
        ["et0faoevapotranspiration"] = Quantity.PublishedEtoMm,
    };

    public static void Read(ReadingJob job)
    {
        if (JsonWeather.Parse(job) is not { } json || Answer(json) is not { } answer)
        {
            return;
        }

        JsonTree? daily = answer["daily"];
        if (daily?["time"] is not { IsArray: true } time)
        {
            json.Problem(daily ?? answer, "", "daily.time with the dates", "the JSON holds no daily values; ask for daily variables");
            return;
        }

        job.Source = Source;
        double offsetSeconds = answer["utc_offset_seconds"] is { } stated
            ? json.Number(stated, answer, "utc_offset_seconds", -86400, 86400) : 0;
        ReadPlace(json, answer, offsetSeconds / 3600);
        List<int> rows = Rows(json, answer, time, offsetSeconds);
        if (job.HasProblems)
        {
            return;
        }

        job.WindHeightM = WindHeightM;
        Tally dropped = new();
        HashSet<Quantity> served = [];
        foreach ((string? name, JsonTree values) in daily.Items)
        {
            if (Known.TryGetValue(Normal(name!), out Quantity quantity) && served.Add(quantity)
                && UnitOf(json, answer, values, name!, quantity) is { } unit)
            {
                ReadVariable(json, values, new DayColumn(0, name!, quantity, unit), rows, dropped);
            }
        }

        dropped.Report(job);
        SayWhatIsMissing(job, daily, served);
    }

    private static string Normal(string name) => name.Replace("_", "", StringComparison.Ordinal).ToLowerInvariant();

    /// <summary>The one answer in the JSON; an error message or several places are problems.</summary>
    private static JsonTree? Answer(JsonWeather json)
    {
        JsonTree root = json.Root;
        if (root is { IsArray: true, Items.Count: 1 })
        {
            root = root.Items[0].Value;
        }
        else if (root.IsArray)
        {
            json.Problem(root, $"{root.Items.Count} places", "one place",
                "the JSON holds the weather of several places; ask for one at a time");
            return null;
        }

        if (root["error"]?.Kind == JsonTokenType.True)
        {
            json.Problem(root, root["reason"]?.Text ?? "", "daily values", "the service answered with an error");
            return null;
        }

        return root;
    }

    private static void ReadPlace(JsonWeather json, JsonTree answer, double offsetHours)
    {
        double latitude = json.Number(answer["latitude"], answer, "latitude", -90, 90);
        double longitude = json.Number(answer["longitude"], answer, "longitude", -180, 180);
        double elevation = answer["elevation"] is { } stated ? json.Number(stated, answer, "elevation", -450, 9000) : double.NaN;
        json.Job.Place = new Place(latitude, longitude, elevation);
        json.Job.Station = string.Create(CultureInfo.InvariantCulture, $"Open-Meteo {latitude:0.###}, {longitude:0.###}");
        double sunHours = longitude / 15;
        double apart = Math.Abs(offsetHours - sunHours);
        if (Math.Min(apart, 24 - apart) > MostOffsetHours)
        {
            Sentence zone = answer["timezone"] is { } named ? $"{named.Text}" : (Sentence)"the requested zone";
            json.Job.Warn(
                $"Days are those of {zone} (UTC{offsetHours:+0.#;-0.#;+0}), but the sun there is at UTC{sunHours:+0.#;-0.#;+0}: highs, lows and rain may fall on the wrong day. Ask with the place's own time zone.");
        }
    }

    private static List<int> Rows(JsonWeather json, JsonTree answer, JsonTree time, double offsetSeconds)
    {
        bool unix = answer["daily_units"]?["time"]?.Text == "unixtime";
        List<int> rows = [];
        LocalDate last = LocalDate.MinIsoValue;
        foreach ((string? _, JsonTree value) in time.Items)
        {
            if (json.Job.Enough)
            {
                break;
            }

            if (!TryDate(value, unix, offsetSeconds, out LocalDate date))
            {
                json.Problem(value, value.Text, unix ? "seconds since 1970" : "a date as 2021-12-31", "this is not a date");
            }
            else if (date <= last)
            {
                json.Problem(value, value.Text, $"a date after {last:uuuu-MM-dd}", date == last ? "the date is here twice"
                    : "the dates are out of order");
            }
            else
            {
                last = date;
                rows.Add(json.Job.Days.RowOf(date));
            }
        }

        return rows;
    }

    private static bool TryDate(JsonTree value, bool unix, double offsetSeconds, out LocalDate date)
    {
        if (!unix)
        {
            return Dates.TryIso(value.Text, out date) && value.Kind == JsonTokenType.String;
        }

        date = default;
        double day = Math.Floor((value.Number + offsetSeconds) / 86400);
        if (!(Math.Abs(day) < 200_000))
        {
            return false;
        }

        LocalDate candidate = new LocalDate(1970, 1, 1).PlusDays((int)day);
        return Dates.TryMake(candidate.Year, candidate.Month, candidate.Day, out date);
    }

    private static Unit? UnitOf(JsonWeather json, JsonTree answer, JsonTree values, string name, Quantity quantity)
    {
        JsonTree? stated = answer["daily_units"]?[name];
        string? text = json.Job.Options.ColumnUnits.GetValueOrDefault(name) ?? stated?.Text;
        Dimension dimension = Quantities.DimensionOf(quantity);
        Unit? unit = text is null ? null : Unit.Named(text);
        if (unit?.Dimension == dimension)
        {
            return unit;
        }

        string choices = Unit.ChoicesFor(dimension);
        json.Problem(stated ?? values, text ?? "nothing", choices, $"{name} has no unit of {(Sentence)Quantities.Title(quantity)}",
            NearestWord.To(text ?? "", choices.Split(", ")));
        return null;
    }

    private static void ReadVariable(JsonWeather json, JsonTree values, DayColumn column, List<int> rows, Tally dropped)
    {
        if (!values.IsArray || values.Items.Count != rows.Count)
        {
            json.Problem(values, $"{values.Items.Count} values", $"{rows.Count} values, one for each date",
                $"{column.Name} does not fit the dates");
            return;
        }

        for (int i = 0; i < rows.Count && !json.Job.Enough; i++)
        {
            JsonTree value = values.Items[i].Value;
            if (value.Kind == JsonTokenType.Null)
            {
                continue;
            }

            double kept = column.Unit.Kept(value.Number);
            if (double.IsNaN(kept))
            {
                json.Problem(value, value.Text, $"a number in {column.Unit.Word}, or null", $"{column.Name} is not a number");
                continue;
            }

            dropped.Seen(column.Quantity);
            if (Plausible.Holds(column.Quantity, kept))
            {
                json.Job.Days.Set(rows[i], column.Quantity, kept);
            }
            else
            {
                dropped.Drop(column.Quantity, 0, 0, value.Text);
            }
        }
    }

    private static void SayWhatIsMissing(ReadingJob job, JsonTree daily, HashSet<Quantity> served)
    {
        bool windMaximum = daily.Items.Any(item => Normal(item.Name!) == "windspeed10mmax");
        if (!served.Contains(Quantity.WindMs) && windMaximum)
        {
            job.Warn("Of the wind only each day's highest speed is given, which says nothing about its mean: it is not used.");
        }

        bool humidity = served.Overlaps([Quantity.RhMaxPercent, Quantity.RhMeanPercent, Quantity.DewPointC]);
        if (served.Contains(Quantity.PublishedEtoMm) && !(humidity && served.Contains(Quantity.WindMs)))
        {
            job.Warn("Wind or humidity is missing, so ETo can only be estimated from the rest; the service's own " +
                "et0_fao_evapotranspiration is kept as published ETo.");
        }
    }
}
