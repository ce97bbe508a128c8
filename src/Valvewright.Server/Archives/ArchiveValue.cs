using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Records;

namespace Valvewright.Server.Archives;

/// <summary>What the file <c>archive.json</c> of a site's archive says; surveys, weather and photos lie beside it.</summary>
/// <param name="Layout">Version of the layout, <see cref="Latest"/>.</param>
/// <param name="Site">The site's id.</param>
/// <param name="Name">Its name.</param>
/// <param name="Written">When the archive was written.</param>
/// <param name="Weather">Its weather file, in the folder <c>weather</c>; null where there is none.</param>
/// <param name="Plans">Its plans.</param>
/// <param name="Readings">Its readings.</param>
/// <param name="Visits">Its visits.</param>
/// <param name="Photos">Its photos, in the folder <c>photos</c>, each named by its id.</param>
internal sealed record ArchiveValue(
    int Layout, Guid Site, string Name, Instant Written, Archived<WeatherValue>? Weather, ListOf<Archived<PlanValue>> Plans,
    ListOf<Archived<ReadingValue>> Readings, ListOf<Archived<VisitValue>> Visits, ListOf<Archived<PhotoValue>> Photos)
{
    public const int Latest = 1;
}

/// <summary>A record in an archive.</summary>
internal sealed record Archived<T>(Guid Id, Stamp Changed, T Value);
