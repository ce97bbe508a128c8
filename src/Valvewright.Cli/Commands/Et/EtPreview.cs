using System.Globalization;
using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Weather;

namespace Valvewright.Cli.Commands.Et;

/// <summary>The first rows of a weather file as they were understood, in our units, so that a person sees a wrong column or unit at
/// once.</summary>
/// <param name="Station">The station.</param>
/// <param name="Layout">How the file was read.</param>
/// <param name="Notes">What was found and assumed on the way.</param>
/// <param name="Days">The first days.</param>
internal sealed record EtPreview(string Station, string Layout, ListOf<WeatherNote> Notes, ListOf<DailyWeather> Days)
{
    private const int DaysShown = 5;

    private static readonly (Sentence Name, string Unit, Func<DailyWeather, double> Value)[] Columns =
    [
        ("Tmax", "°C", d => d.TmaxC), ("Tmin", "°C", d => d.TminC), ("rain", "mm", d => d.RainMm), ("RH max", "%", d => d.RhMaxPercent),
            ("RH min", "%", d => d.RhMinPercent),
        ("RH mean", "%", d => d.RhMeanPercent), ("vapor", "kPa", d => d.VapourPressureKpa), ("dew point", "°C", d => d.DewPointC),
            ("Rs", "MJ/m²", d => d.RadiationMjM2),
        ("sunshine", "h", d => d.SunshineHours), ("wind", "m/s", d => d.WindMs), ("ETo", "mm", d => d.PublishedEtoMm),
    ];

    public static EtPreview Of(WeatherReading reading) =>
        new(reading.Record!.Station, reading.Layout!.Value.Word(), reading.Notes, reading.Record.Days.Take(DaysShown).ToListOf());

    /// <summary>A table with the columns that the file has.</summary>
    public static void Print(WeatherReading reading, Sheet sheet)
    {
        ListOf<DailyWeather> all = reading.Record!.Days;
        var present = Columns.Where(column => all.Any(day => !double.IsNaN(column.Value(day)))).ToArray();
        sheet.Heading("First days as understood");
        Table table = new([.. present.Select(column => (Sentence)$">{column.Name} {column.Unit}").Prepend((Sentence)"date")]);
        foreach (DailyWeather day in all.Take(DaysShown))
        {
            table.Row([.. present.Select(column => column.Value(day) is var value && double.IsNaN(value) ? "-"
                : value.ToString("0.0##", CultureInfo.InvariantCulture)).Prepend($"{day.Date:uuuu-MM-dd}")]);
        }

        sheet.Show(table);
    }
}
