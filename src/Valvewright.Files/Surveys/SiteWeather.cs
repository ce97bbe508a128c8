using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;

namespace Valvewright.Files.Surveys;

/// <summary>The weather record that a site's survey names.</summary>
public static class SiteWeather
{
    /// <summary>
    /// Half a year: 1 January falls on 1 July (30 June in a leap year), so that years of growth stay whole; midsummer falls
    /// within two days of midsummer.
    /// </summary>
    public const int HalfAYearDays = 181;

    /// <summary>Reads the site's weather file with what the survey says of it: layout, station, wind height, whether it is to be moved.</summary>
    public static WeatherReading Read(Site site)
    {
        ArgumentNullException.ThrowIfNull(site);
        if (site.Weather?.File is not { } file)
        {
            string found = site.Weather?.Service is { } service ? $"service: {service}" : "";
            return WeatherReading.Failed(null, new Problem(site.Name, 0, 0, found, "'weather:' with 'file:' in the site file", null, "The survey names no file of weather"));
        }

        WeatherSource weather = site.Weather;
        WeatherReading reading = WeatherFiles.Read(file, new WeatherReadOptions
        {
            Layout = weather.Layout is null ? null : WeatherLayouts.Named(weather.Layout),
            Place = weather.Station,
            WindHeightM = double.IsNaN(weather.WindHeightM) ? null : weather.WindHeightM,
        });
        if (!reading.Ok) return reading;
        WeatherRecord record = weather.Source is null ? reading.Record : reading.Record with { Source = weather.Source };
        if (!weather.MovedHalfAYear) return reading with { Record = record };
        WeatherNote note = new(WeatherNoteKind.Assumed, $"The record is one of the other hemisphere, moved by {HalfAYearDays} days; it is not the weather of the site");
        return reading with { Record = Moved(record), Notes = reading.Notes.Add(note) };
    }

    /// <summary>The record moved to the other hemisphere: later by half a year, at the opposite latitude, so that day lengths fit.</summary>
    public static WeatherRecord Moved(WeatherRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        return record with
        {
            Place = record.Place with { LatitudeDeg = -record.Place.LatitudeDeg },
            Days = record.Days.Select(day => day with { Date = day.Date.PlusDays(HalfAYearDays) }).ToListOf(),
            Source = $"{record.Source}; moved by half a year to the other hemisphere",
        };
    }
}
