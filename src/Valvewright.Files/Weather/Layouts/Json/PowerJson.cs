using System.Text.Json;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather.Layouts.Power;
using Valvewright.Files.Weather.Text;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts.Json;

/// <summary>
/// NASA POWER's daily GeoJSON: geometry.coordinates is [longitude, latitude, elevation]; properties.parameter.NAME.YYYYMMDD the values;
/// parameters.NAME.units the units; header.fill_value what is for "none".
/// </summary>
internal static class PowerJson
{
    public static void Read(ReadingJob job)
    {
        if (JsonWeather.Parse(job) is not { } json)
        {
            return;
        }

        JsonTree? parameters = json.Root["properties"]?["parameter"];
        if (parameters is not { IsObject: true })
        {
            json.Problem(parameters ?? json.Root, "", "properties.parameter with an object for each parameter",
                "the JSON holds no NASA POWER values");
            return;
        }

        job.Source = PowerParameters.Source;
        ReadPlace(json);
        double fill = json.Root["header"]?["fill_value"]?.Number is { } stated && double.IsFinite(stated) ? stated
            : PowerParameters.FillValue;
        if (json.Root["header"]?["time_standard"]?.Text == "UTC")
        {
            job.Warn("Days run from midnight to midnight UTC, not local time.");
        }

        Tally dropped = new();
        foreach ((string name, Quantity quantity, double? windHeightM) in PowerParameters.Use(parameters.Items.Select(item => item.Name!)))
        {
            if (UnitOf(json, name, quantity, parameters) is { } unit)
            {
                job.WindHeightM = windHeightM ?? job.WindHeightM;
                ReadParameter(json, parameters[name]!, new DayColumn(0, name, quantity, unit), fill, dropped);
            }
        }

        dropped.Report(job);
        CheckPeriod(json);
    }

    private static void ReadPlace(JsonWeather json)
    {
        JsonTree? coordinates = json.Root["geometry"]?["coordinates"];
        if (coordinates is not { IsArray: true, Items.Count: >= 2 })
        {
            json.Problem(coordinates ?? json.Root, "", "geometry.coordinates as [longitude, latitude, elevation]",
                "the JSON does not say where it is from");
            return;
        }

        double longitude = json.Number(coordinates.Items[0].Value, coordinates, "the longitude", -180, 180);
        double latitude = json.Number(coordinates.Items[1].Value, coordinates, "the latitude", -90, 90);
        double elevation = coordinates.Items.Count > 2
            ? json.Number(coordinates.Items[2].Value, coordinates, "the elevation", -450, 9000) : double.NaN;
        PowerParameters.SettlePlace(json.Job, new Place(latitude, longitude, elevation));
    }

    private static Unit? UnitOf(JsonWeather json, string name, Quantity quantity, JsonTree parameters)
    {
        JsonTree? stated = json.Root["parameters"]?[name]?["units"];
        string? text = json.Job.Options.ColumnUnits.GetValueOrDefault(name) ?? stated?.Text;
        Dimension dimension = Quantities.DimensionOf(quantity);
        Unit? unit = text is null ? null : Unit.Named(text);
        if (unit?.Dimension == dimension)
        {
            return unit;
        }

        string choices = Unit.ChoicesFor(dimension);
        json.Problem(stated ?? parameters[name]!, text ?? "nothing", choices,
            $"{name} has no unit of {(Sentence)Quantities.Title(quantity)}",
            NearestWord.To(text ?? "", choices.Split(", ")));
        return null;
    }

    private static void ReadParameter(JsonWeather json, JsonTree values, DayColumn column, double fill, Tally dropped)
    {
        ReadingJob job = json.Job;
        HashSet<LocalDate> seen = [];
        foreach ((string? key, JsonTree value) in values.Items)
        {
            if (job.Enough)
            {
                return;
            }

            if (key is null || key.Length != 8 || !Dates.TryIso(key, out LocalDate date))
            {
                json.Problem(value, key ?? "", "a date as 20211231", $"{column.Name} has a value for what is not a date");
            }
            else if (!seen.Add(date))
            {
                json.Problem(value, key, "each date once", $"{column.Name} has the date twice");
            }
            else if (value.Kind != JsonTokenType.Null && !double.IsFinite(value.Number))
            {
                json.Problem(value, value.Text, $"a number in {column.Unit.Word}", $"{column.Name} is not a number on {key}");
            }
            else
            {
                int row = job.Days.RowOf(date);
                if (value.Kind != JsonTokenType.Null && value.Number != fill)
                {
                    Take(json, row, column, value, dropped);
                }
            }
        }
    }

    private static void Take(JsonWeather json, int row, DayColumn column, JsonTree value, Tally dropped)
    {
        double kept = column.Unit.Kept(value.Number);
        dropped.Seen(column.Quantity);
        if (Plausible.Holds(column.Quantity, kept))
        {
            json.Job.Days.Set(row, column.Quantity, kept);
        }
        else
        {
            dropped.Drop(column.Quantity, 0, 0, value.Text);
        }
    }

    private static void CheckPeriod(JsonWeather json)
    {
        DayTable days = json.Job.Days;
        if (days.Count > 0 && Dates.TryIso(json.Root["header"]?["end"]?.Text, out LocalDate end) && days.DateOf(days.Count - 1) < end)
        {
            json.Job.Warn($"The header says the values run to {end:uuuu-MM-dd}; they end on {days.DateOf(days.Count - 1):uuuu-MM-dd}.");
        }

        PowerTable.Unprocessed(json.Job);
    }
}
