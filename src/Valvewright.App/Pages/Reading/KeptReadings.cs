using System.Text.Json;
using Valvewright.App.Outbox;
using Valvewright.App.Shelf;
using Valvewright.Records;

namespace Valvewright.App.Pages.Reading;

/// <summary>A reading that was kept, on the server or on this device.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Version">The version that a change rests on; null where the server has none.</param>
/// <param name="Value">What it says.</param>
/// <param name="IsUnsent">Whether what is shown is on this device only.</param>
public sealed record KeptReading(Guid Id, string? Version, ReadingValue Value, bool IsUnsent)
{
    /// <summary>All readings of a site, the latest first.</summary>
    public static ListOf<KeptReading> Of(OpenedSite site, IEnumerable<UnsentRecord> waiting)
    {
        Dictionary<Guid, KeptReading> kept = site.Carried.All.Readings.ToDictionary(
            r => r.Id, r => new KeptReading(r.Id, $"\"{r.Version}\"", r.Value, false));
        foreach (UnsentRecord record in waiting.Where(r => r.Site == site.Id && r.Kind == "reading" && r.Body is not null))
        {
            try
            {
                kept[record.Id] = new KeptReading(record.Id, record.Version, Json.Read<ReadingValue>(record.Body!)!, true);
            }
            catch (JsonException)
            {
                // It stays among what waits, where it can be seen as it is.
            }
        }

        return kept.Values.OrderByDescending(r => r.Value.ReadAt).ThenBy(r => r.Id).ToListOf();
    }
}
