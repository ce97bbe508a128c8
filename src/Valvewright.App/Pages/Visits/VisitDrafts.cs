using Valvewright.App.Outbox;
using Valvewright.App.Shelf;
using Valvewright.Records;

namespace Valvewright.App.Pages.Visits;

/// <summary>Unfinished visits on the device, and how one is finished.</summary>
public sealed class VisitDrafts(DeviceShelf shelf, Unsent unsent, IClock clock)
{
    private const string Store = "drafts";
    private const string Photos = "photos";

    /// <summary>The unfinished new visit of a site, or the unfinished correction of one of its visits.</summary>
    public Task<VisitDraft?> FindAsync(Guid site, Guid? visit) => shelf.Get<VisitDraft>(Store, Key(site, visit));

    /// <summary>Keeps an unfinished visit.</summary>
    /// <exception cref="ShelfException">The device does not keep it.</exception>
    public Task KeepAsync(Guid site, VisitDraft draft)
    {
        return shelf.Put(Store, Key(site, draft.IsCorrection ? draft.Id : null), draft with { At = clock.GetCurrentInstant() });
    }

    /// <summary>Keeps the bytes of a photo of an unfinished visit.</summary>
    /// <exception cref="ShelfException">The device does not keep them.</exception>
    public async Task<DraftPhoto> AddPhotoAsync(byte[] bytes)
    {
        DraftPhoto photo = new(Ids.New(), "image/jpeg", bytes.Length);
        await Unsent.PutPhotoAsync(shelf, photo.Id, bytes);
        return photo;
    }

    /// <summary>The bytes of a photo that was not sent yet.</summary>
    public Task<byte[]?> BytesAsync(Guid photo) => shelf.GetBytes(Photos, photo.ToString());

    /// <summary>Takes a photo out of an unfinished visit.</summary>
    public Task RemovePhotoAsync(DraftPhoto photo)
    {
        return shelf.Remove(Photos, photo.Id.ToString());
    }

    /// <summary>Throws an unfinished visit away, with its photos.</summary>
    public async Task DiscardAsync(Guid site, VisitDraft draft)
    {
        foreach (DraftPhoto photo in draft.Photos)
        {
            await RemovePhotoAsync(photo);
        }

        await shelf.Remove(Store, Key(site, draft.IsCorrection ? draft.Id : null));
    }

    /// <summary>
    /// Records a finished visit with its photos on this device; the draft goes last, so that whatever stops it half way leaves it as it is,
    /// to be finished once more under the same ids.
    /// </summary>
    /// <exception cref="ShelfException">The device does not keep it; the draft stays.</exception>
    public async Task FinishAsync(Guid site, VisitDraft draft, VisitValue value)
    {
        string address = VisitLine.AddressOf(site, draft.Id);
        await unsent.KeepOnly(draft.Id, site, "visit", address, "application/json",
            System.Text.Json.JsonSerializer.Serialize(value, Json.Compact), draft.Version);
        foreach (DraftPhoto photo in draft.Photos)
        {
            if (await BytesAsync(photo.Id) is { } bytes)
            {
                await unsent.RecordPhoto(photo.Id, site, $"{address}/photos/{photo.Id}", photo.Type, bytes, draft.Id);
            }
        }

        await shelf.Remove(Store, Key(site, draft.IsCorrection ? draft.Id : null));
    }

    /// <summary>What an unfinished visit is called among what is written in one window at a time.</summary>
    public static string Key(Guid site, Guid? visit) => $"visit:{site}:{(visit is { } id ? id.ToString() : "new")}";
}
