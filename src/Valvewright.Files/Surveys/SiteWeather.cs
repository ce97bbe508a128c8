using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys.Yaml;
using Valvewright.Files.Weather;
using Valvewright.Files.Weather.Fetch;

namespace Valvewright.Files.Surveys;

/// <summary>The weather record that a site's survey names.</summary>
public static class SiteWeather
{
    /// <summary>
    /// Half a year: 1 January falls on 1 July (30 June in a leap year), so that years of growth stay whole; midsummer falls
    /// within two days of midsummer.
    /// </summary>
    public const int HalfAYearDays = 181;

    /// <summary>Whole years that are fetched for a site that names a service.</summary>
    public const int YearsFetched = 20;

    /// <summary>
    /// The site's weather, with what the survey says of it: layout, station, wind height, whether it is to be moved. Where the
    /// survey names a service, the last whole years are fetched, or taken from what was kept.
    /// </summary>
    /// <param name="site">The site.</param>
    /// <param name="settings">Where services are and where answers are kept; as the environment says when not given.</param>
    /// <param name="clock">What the date is; the system's clock when not given.</param>
    public static WeatherReading Read(Site site, FetchSettings? settings = null, IClock? clock = null)
    {
        ArgumentNullException.ThrowIfNull(site);
        if (site.Weather is not { } weather)
        {
            return WeatherReading.Failed(null, new Problem(
                site.Name, 0, 0, "", "'weather:' with 'file:' or 'service:' in the site file", null, "The survey names no weather"));
        }

        WeatherReading reading = weather.File is { } file
            ? WeatherFiles.Read(file, OptionsOf(site, weather))
            : Fetched(site, WeatherServices.Named(weather.Service ?? "") ?? WeatherService.NasaPower,
                settings ?? FetchSettings.FromEnvironment(), clock ?? SystemClock.Instance);
        return AsSurveyed(reading, weather);
    }

    /// <summary>The site's weather out of the bytes of the file that the survey names, wherever they are kept.</summary>
    /// <param name="site">The site; its survey names a file.</param>
    /// <param name="name">The name to give in problems.</param>
    /// <param name="bytes">What the file holds.</param>
    public static WeatherReading ReadBytes(Site site, string name, ReadOnlySpan<byte> bytes)
    {
        ArgumentNullException.ThrowIfNull(site);
        WeatherSource weather = site.Weather ?? throw new ArgumentException("The survey names no weather.", nameof(site));
        return AsSurveyed(WeatherFiles.ReadBytes(name, bytes, OptionsOf(site, weather)), weather);
    }

    /// <summary>What was assumed of the record: where its station stands, how high its wind is measured.</summary>
    public static ListOf<Assumption> Assumed(WeatherRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        List<Assumption> assumed = [];
        if (record.IsPlaceAssumed)
        {
            assumed.Add(new("weather/station", "where the site lies",
                "the weather file does not give the station's place or elevation; the survey can"));
        }

        if (record.IsWindHeightAssumed)
        {
            assumed.Add(new("weather/wind height", $"{record.WindHeightM:0.##} m",
                "usual for stations of this kind; the weather file does not say it, and the survey can"));
        }

        return assumed.ToListOf();
    }

    private static WeatherReading AsSurveyed(WeatherReading reading, WeatherSource weather)
    {
        if (!reading.Ok) return reading;
        WeatherRecord record = reading.Record with { Eto = weather.Eto, Source = weather.Source ?? reading.Record.Source };
        if (!weather.MovedHalfAYear) return reading with { Record = record };
        WeatherNote note = new(WeatherNoteKind.Assumed,
            $"The record is one of the other hemisphere, moved by {HalfAYearDays} days; it is not the weather of the site");
        return reading with { Record = Moved(record), Notes = reading.Notes.Add(note) };
    }

    private static WeatherReadOptions OptionsOf(Site site, WeatherSource weather) => new()
    {
        Layout = weather.Layout is null ? null : WeatherLayouts.Named(weather.Layout),
        Place = weather.Station,
        // A record of the other hemisphere was measured there, and is turned over with its place.
        Otherwise = weather.MovedHalfAYear ? site.Place with { LatitudeDeg = -site.Place.LatitudeDeg } : site.Place,
        WindHeightM = double.IsNaN(weather.WindHeightM) ? null : weather.WindHeightM,
        IsWindHeightNeeded = true,
        Columns = weather.Columns.Count == 0 ? null
            : ColumnMap.Read([.. weather.Columns.Select(c => (c.Word, c.Column))], (_, _, _, _, _) => { }),
    };

    private static WeatherReading Fetched(Site site, WeatherService service, FetchSettings settings, IClock clock)
    {
        int last = clock.GetCurrentInstant().InZone(site.Zone()).Year - 1;
        FetchRequest request =
            new(service, site.Weather!.Station ?? site.Place, new LocalDate(last - YearsFetched + 1, 1, 1), new LocalDate(last, 12, 31));
        using WeatherFetcher fetcher = new(settings, clock);
        return fetcher.FetchAsync(request).GetAwaiter().GetResult().Reading;
    }

    /// <summary>The record moved to the other hemisphere: later by half a year, at the opposite latitude, so that day lengths
    /// fit.</summary>
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
