using System.Text.Json;
using Valvewright.App.Outbox;
using Valvewright.App.Shelf;
using Valvewright.Engine.Faults;
using Valvewright.Engine.Values;
using Valvewright.Records;

namespace Valvewright.App.Pages.Trace;

/// <summary>The trace that is being worked on, as it lies on the device.</summary>
/// <param name="Id">The id of its record.</param>
/// <param name="Visit">The id of the visit that keeps what was measured.</param>
/// <param name="Version">The version that it was taken up from; null where it began here.</param>
/// <param name="Trace">The trace.</param>
public sealed record TraceDraft(Guid Id, Guid Visit, string? Version, TraceCase? Trace);

/// <summary>A trace that was put aside, on the server or on this device.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Version">The version that a change rests on; null where the server has none.</param>
/// <param name="Value">What it says.</param>
/// <param name="By">Who put it aside; may be empty.</param>
public sealed record KeptTrace(Guid Id, string? Version, TraceValue Value, string By)
{
    /// <summary>All traces of a site, the latest first.</summary>
    public static ListOf<KeptTrace> Of(OpenedSite site, IEnumerable<UnsentRecord> waiting)
    {
        Dictionary<Guid, KeptTrace> kept = site.Carried.All.Traces.ToDictionary(t => t.Id, t =>
            new KeptTrace(t.Id, $"\"{t.Version}\"", t.Value, t.Changed.By));
        foreach (UnsentRecord record in waiting.Where(r => r.Site == site.Id && r.Kind == "trace" && r.Body is not null))
        {
            try
            {
                kept[record.Id] = new KeptTrace(record.Id, record.Version, Json.Read<TraceValue>(record.Body!)!, record.By);
            }
            catch (JsonException)
            {
                // It stays among what waits, where it can be seen as it is.
            }
        }

        return kept.Values.OrderByDescending(t => t.Value.At).ThenBy(t => t.Id).ToListOf();
    }
}
