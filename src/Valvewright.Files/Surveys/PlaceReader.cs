using System.Globalization;
using NodaTime.TimeZones;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Reads where a site lies and which time zone people live by, and holds the two against each other.</summary>
internal static class PlaceReader
{
    /// <summary>No time zone is wider; a place farther from its zone's chief town is questioned.</summary>
    private const double FarKm = 3500;

    internal static (Place Place, string TimeZone) Read(MapReader site, WeatherSource? weather)
    {
        string zone = site.Text("time zone") ?? "";
        if (site.Inner("location", "location") is not { } map) return (new Place(0, 0, 0), zone);
        (double latitude, double longitude) = Coordinates(map);
        double elevation = map.Amount("elevation");
        if (!map.Has("elevation"))
        {
            bool fromStation = weather?.Station is not null;
            elevation = fromStation ? weather!.Station!.ElevationM : 0;
            map.Findings.Assume("location/elevation", map.Context.Show.Length(elevation),
                fromStation ? "the weather station's" : "sea level; the survey gives none");
        }

        Place place = new(latitude, longitude, elevation);
        if (double.IsFinite(latitude) && double.IsFinite(longitude) && zone.Length > 0) Compare(map, place, zone);
        return (place, zone);
    }

    /// <summary>Latitude and longitude of a mapping that holds both; NaN where wrong.</summary>
    internal static (double Latitude, double Longitude) Coordinates(MapReader map)
    {
        double latitude = map.Amount("latitude");
        double longitude = map.Amount("longitude");
        if (Math.Abs(latitude) > 90)
        {
            bool swapped = Math.Abs(longitude) <= 90;
            map.Findings.Refuse(
                map.Get("latitude")!,
                "degrees north from -90 to 90",
                swapped ? "No latitude lies beyond the poles; latitude and longitude look swapped" : "No latitude lies beyond the poles",
                swapped ? string.Create(CultureInfo.InvariantCulture, $"latitude: {longitude}, longitude: {latitude}") : null);
            latitude = double.NaN;
        }

        return (latitude, longitude);
    }

    /// <summary>A place far from the chief town of its time zone, and near it once swapped or turned, was written down wrongly.</summary>
    private static void Compare(MapReader map, Place place, string zone)
    {
        TzdbDateTimeZoneSource known = TzdbDateTimeZoneSource.Default;
        string id = known.CanonicalIdMap[zone];
        TzdbZoneLocation? town = known.ZoneLocations?.FirstOrDefault(location => location.ZoneId == id || location.ZoneId == zone);
        if (town is null) return;
        double Distance(double latitude, double longitude) =>
            new Place(latitude, longitude, 0).KmTo(new Place(town.Latitude, town.Longitude, 0));
        (double lat, double lon) = (place.LatitudeDeg, place.LongitudeDeg);
        double distance = Distance(lat, lon);
        if (distance <= FarKm)
        {
            if (distance > 1000 && Math.Abs(lon) <= 90 && Distance(lon, lat) < 300)
            {
                map.Findings.Question(
                    map.Get("latitude")!, "the place itself",
                        $"Latitude and longitude may be swapped: the place lies {distance:0} km from {zone}",
                            string.Create(CultureInfo.InvariantCulture, $"latitude: {lon}, longitude: {lat}"));
            }

            return;
        }

        (double Lat, double Lon, Sentence What)[] slips =
        [
            (lon, lat, "latitude and longitude look swapped"),
            (lat, -lon, "the sign of the longitude looks wrong (west is negative)"),
            (-lat, lon, "the sign of the latitude looks wrong (south is negative)"),
        ];
        foreach ((double slipLat, double slipLon, Sentence what) in slips
            .OrderBy(slip => Distance(Math.Clamp(slip.Lat, -90, 90), slip.Lon)))
        {
            if (Math.Abs(slipLat) > 90 || Distance(slipLat, slipLon) > FarKm) continue;
            map.Findings.Refuse(
                map.Get("latitude")!,
                $"a place within {FarKm} km of {zone}",
                $"The place lies {distance:0} km from its time zone; {what}",
                string.Create(CultureInfo.InvariantCulture, $"latitude: {slipLat}, longitude: {slipLon}"));
            return;
        }

        map.Findings.Question(
            map.Get("latitude")!, $"a place within {FarKm} km of {zone}", $"The place lies {distance:0} km from its time zone");
    }
}
