using System.Text.Json;
using Valvewright.App.Outbox;
using Valvewright.App.Shelf;
using Valvewright.Records;
using Valvewright.Records.Views;

namespace Valvewright.App.Pages.Visits;

/// <summary>Where a visit is.</summary>
public enum Whereabouts
{
    /// <summary>On the server, as it is shown.</summary>
    OnServer,

    /// <summary>On this device only; it is sent when it can be.</summary>
    Waiting,

    /// <summary>On the server, with a correction that is on this device only.</summary>
    CorrectionWaiting,

    /// <summary>On this device only; the server refused it and the person has to decide.</summary>
    Refused,
}

/// <summary>A visit in the list of a site, from the server or from this device.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Value">What it says; what was last written here goes before what the server knows.</param>
/// <param name="Where">Where it is.</param>
/// <param name="View">As the server has it; null where it has not.</param>
/// <param name="Record">As it waits; null where it does not.</param>
/// <param name="PhotosWaiting">Ids of its photos that wait on this device.</param>
public sealed record VisitLine(
    Guid Id, VisitValue Value, Whereabouts Where, VisitView? View, UnsentRecord? Record, ListOf<Guid> PhotosWaiting)
{
    /// <summary>Whether any of it is on this device only.</summary>
    public bool IsUnsent => Record is not null || PhotosWaiting.Count > 0;

    /// <summary>All visits of a site, the latest first.</summary>
    public static ListOf<VisitLine> Of(OpenedSite site, IReadOnlyList<UnsentRecord> waiting)
    {
        return Of(site.Id, site.Carried.All.Visits, waiting);
    }

    /// <summary>All visits of a site, the latest first.</summary>
    public static ListOf<VisitLine> Of(Guid site, IEnumerable<VisitView> known, IReadOnlyList<UnsentRecord> waiting)
    {
        Dictionary<Guid, VisitView> views = known.ToDictionary(v => v.Id);
        Dictionary<Guid, (UnsentRecord Record, VisitValue Value)> own = [];
        foreach (UnsentRecord record in waiting.Where(r => r.Site == site && r.Kind == "visit"))
        {
            if (ValueOf(record) is { } value)
            {
                own[record.Id] = (record, value);
            }
        }

        ILookup<Guid, Guid> photos = waiting.Where(r => r.Site == site && r.Kind == "photo" && VisitOf(r) is not null)
            .ToLookup(r => VisitOf(r)!.Value, r => r.Id);
        return views.Keys.Union(own.Keys).Select(id =>
        {
            VisitView? view = views.GetValueOrDefault(id);
            UnsentRecord? record = own.TryGetValue(id, out var mine) ? mine.Record : null;
            Whereabouts where = record is null ? Whereabouts.OnServer : record.Refusal is not null ? Whereabouts.Refused : view is null
                ? Whereabouts.Waiting : Whereabouts.CorrectionWaiting;
            return new VisitLine(id, record is null ? view!.Value : mine.Value, where, view, record, photos[id].ToListOf());
        }).OrderByDescending(v => v.Value.At).ThenBy(v => v.Id).ToListOf();
    }

    /// <summary>What a record that waits says; null where it can't be read.</summary>
    public static VisitValue? ValueOf(UnsentRecord record)
    {
        try
        {
            return record.Body is null ? null : Json.Read<VisitValue>(record.Body);
        }
        catch (JsonException)
        {
            return null;
        }
    }

    /// <summary>The visit that a photo belongs to, by its address.</summary>
    public static Guid? VisitOf(UnsentRecord photo)
    {
        string[] parts = photo.Address.Split('/');
        int at = Array.IndexOf(parts, "visits");
        return at >= 0 && at + 1 < parts.Length && Guid.TryParse(parts[at + 1], out Guid visit) ? visit : null;
    }

    /// <summary>Where a visit is put.</summary>
    public static string AddressOf(Guid site, Guid visit) => $"api/sites/{site}/visits/{visit}";
}
