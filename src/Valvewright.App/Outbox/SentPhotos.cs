using Valvewright.App.Shelf;

namespace Valvewright.App.Outbox;

/// <summary>
/// Photos that were taken on this device and are on the server by now: they stay here to be seen without a signal, the newest of them, up
/// to
/// <see cref="MostBytes"/>; the oldest go first. They give way at once to what is not sent yet.
/// </summary>
/// <remarks>The list of them is changed while the lock of sending is held, or with a check that no one was first.</remarks>
public sealed class SentPhotos(DeviceShelf shelf)
{
    /// <summary>The most that they take, bytes.</summary>
    public const long MostBytes = 50_000_000;

    private const string Store = "drafts";
    private const string Key = "photos-sent";

    /// <summary>Keeps a photo whose bytes lie in the store of photos, and lets the oldest go.</summary>
    /// <param name="photo">The photo.</param>
    /// <param name="site">Its site.</param>
    public async Task KeepAsync(Guid photo, Guid site)
    {
        if (await shelf.GetBytes(Unsent.Photos, photo.ToString()) is not { Length: var bytes })
        {
            return;
        }

        await ChangeAsync(kept =>
        {
            List<SentPhoto> all = [.. kept.Where(p => p.Id != photo), new SentPhoto(photo, site, bytes)];
            while (all.Sum(p => p.Bytes) > MostBytes)
            {
                all.RemoveAt(0);
            }

            return all;
        });
    }

    /// <summary>Lets the photos of a site go.</summary>
    public Task ForgetAsync(Guid site) => ChangeAsync(kept => kept.Where(p => p.Site != site));

    /// <summary>Lets all of them go, to make room.</summary>
    /// <returns>Whether there were any.</returns>
    public async Task<bool> MakeRoomAsync()
    {
        bool any = await shelf.Get<SentPhotoList>(Store, Key) is { Photos.Count: > 0 };
        await ChangeAsync(_ => []);
        return any;
    }

    /// <summary>The list is changed first: bytes that it does not name any more are removed after it, and never any that it
    /// names.</summary>
    private async Task ChangeAsync(Func<ListOf<SentPhoto>, IEnumerable<SentPhoto>> change)
    {
        while (true)
        {
            Held<SentPhotoList>? held = await shelf.Hold<SentPhotoList>(Store, Key);
            ListOf<SentPhoto> before = held?.Value.Photos ?? [], after = change(before).ToListOf();
            if (after == before)
            {
                return;
            }

            if ((await shelf.Swap(Store, Key, held, after.Count == 0 ? null : new SentPhotoList(after))).IsDone)
            {
                foreach (SentPhoto gone in before.Where(p => after.All(a => a.Id != p.Id)))
                {
                    await shelf.Remove(Unsent.Photos, gone.Id.ToString());
                }

                return;
            }
        }
    }
}

/// <summary>The photos that were sent and are kept, the oldest first.</summary>
/// <param name="Photos">The photos.</param>
public sealed record SentPhotoList(ListOf<SentPhoto> Photos);

/// <summary>A photo that was sent.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Site">Its site.</param>
/// <param name="Bytes">How many bytes it has.</param>
public sealed record SentPhoto(Guid Id, Guid Site, long Bytes);
