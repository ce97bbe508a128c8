using Valvewright.App.Link;
using Valvewright.App.Person;
using Valvewright.App.Shelf;
using Valvewright.Records;

namespace Valvewright.App.Outbox;

/// <summary>
/// What is recorded on this device and not yet on the server. Recording writes to the device first, always; sending comes after, in the
/// order in which things were recorded (<see cref="Sending"/>), and takes a record off the device only when the server itself has said that
/// it keeps it.
/// </summary>
public sealed class Unsent(
    DeviceShelf shelf, ServerLink link, Preferences preferences, IClock clock, Device device, SiteShelf? sites = null)
{
    internal const string Store = "unsent";
    internal const string Photos = "photos";
    private readonly Sending sending = new(shelf, link);
    private List<UnsentRecord> records = [];

    /// <summary>All of them, the oldest first.</summary>
    public IReadOnlyList<UnsentRecord> Records => records;

    /// <summary>How the last sending ended; null before the first.</summary>
    public Halt? Halted { get; private set; }

    /// <summary>Raised when a record comes, goes or is refused.</summary>
    public event Action? Changed;

    /// <summary>Raised for a site when something of it reached the server.</summary>
    public event Action<Guid>? Sent;

    /// <summary>Reads what waits on the device, and sends whenever a signal comes.</summary>
    public async Task LoadAsync()
    {
        await RereadAsync();
        device.Signal += there =>
        {
            if (there && records.Count > 0)
            {
                _ = SendAsync();
            }
        };
        await device.WatchAsync();
        _ = AgainAsync();
    }

    /// <summary>A signal that comes back is not always told: what waits is tried again every minute while the page is open.</summary>
    private async Task AgainAsync()
    {
        using PeriodicTimer minutes = new(TimeSpan.FromMinutes(1));
        while (await minutes.WaitForNextTickAsync())
        {
            if (records.Any(r => r.Refusal is null))
            {
                await SendAsync();
            }
        }
    }

    /// <summary>Keeps a record on the device, then tries to send.</summary>
    /// <param name="id">Its id.</param>
    /// <param name="site">Its site.</param>
    /// <param name="kind">What it is.</param>
    /// <param name="address">Where it is put.</param>
    /// <param name="type">Media type of the body.</param>
    /// <param name="body">The body as text.</param>
    /// <param name="version">The version that it rests on; null for a new record.</param>
    /// <exception cref="ShelfException">The device does not keep it.</exception>
    public async Task Record(Guid id, Guid site, string kind, string address, string type, string body, string? version = null)
    {
        await Keep(new UnsentRecord(id, site, kind, address, type, body, version, clock.GetCurrentInstant(), preferences.By));
        await SendAsync();
    }

    /// <summary>Keeps a record on the device without sending it yet: where several belong together.</summary>
    /// <exception cref="ShelfException">The device does not keep it.</exception>
    public Task KeepOnly(Guid id, Guid site, string kind, string address, string type, string body, string? version) =>
        Keep(new UnsentRecord(id, site, kind, address, type, body, version, clock.GetCurrentInstant(), preferences.By));

    /// <summary>Keeps a photo on the device; it goes with the next sending, after its visit.</summary>
    /// <exception cref="ShelfException">The device does not keep it.</exception>
    public async Task RecordPhoto(Guid id, Guid site, string address, string type, byte[] bytes, Guid? after = null)
    {
        await PutPhotoAsync(shelf, id, bytes);
        await Keep(new UnsentRecord(id, site, "photo", address, type, null, null, clock.GetCurrentInstant(), preferences.By)
            { After = after });
    }

    /// <summary>Keeps the bytes of a photo; photos that were sent give way to it.</summary>
    /// <exception cref="ShelfException">The device does not keep them.</exception>
    internal static async Task PutPhotoAsync(DeviceShelf shelf, Guid id, byte[] bytes)
    {
        try
        {
            await shelf.PutBytes(Photos, id.ToString(), bytes);
        }
        catch (ShelfException reason) when (reason.IsFull)
        {
            if (!await new SentPhotos(shelf).MakeRoomAsync())
            {
                throw;
            }

            await shelf.PutBytes(Photos, id.ToString(), bytes);
        }
    }

    /// <summary>The bytes of a photo that waits, or was taken here and sent; null where they are not on the device.</summary>
    public Task<byte[]?> PhotoAsync(Guid id) => shelf.GetBytes(Photos, id.ToString());

    /// <summary>Throws a record away that the person does not want any more, with the photos that can't go without it.</summary>
    public async Task Discard(UnsentRecord record)
    {
        foreach (UnsentRecord photo in record.Version is null ? records.Where(r => r.After == record.Id).ToArray() : [])
        {
            await sending.Drop(photo);
        }

        await sending.Drop(record);
        if (record is { Kind: "survey", Version: null } && sites is not null)
        {
            await sites.ForgetNotSentAsync(record.Site);
        }

        await RereadAsync();
    }

    /// <summary>Puts another record in the place of one, with what the person decided after a refusal, and sends.</summary>
    public async Task Replace(UnsentRecord record)
    {
        await Keep(record with { Refusal = null, Problem = null, Tried = [] });
        await SendAsync();
    }

    /// <summary>Keeps a refused visit as another one besides the one it met, under an id of its own, and sends.</summary>
    /// <returns>The id that it has now.</returns>
    public async Task<Guid> KeepBoth(UnsentRecord record)
    {
        Guid id = Ids.New();
        string address = record.Address[..record.Address.LastIndexOf('/')] + "/" + id;
        UnsentRecord[] photos = [.. records.Where(r => r.After == record.Id)];
        await Keep(record with { Id = id, Address = address, Version = null, Refusal = null, Problem = null, Tried = [] });
        foreach (UnsentRecord photo in photos)
        {
            await Keep(photo with { After = id, Address = $"{address}/photos/{photo.Id}", Refusal = null, Problem = null });
        }

        await sending.Drop(record);
        await SendAsync();
        return id;
    }

    /// <summary>Sends what waits. Where no server answers everything stays; what is refused stays with the reason.</summary>
    public Task SendAsync() => shelf.Alone("valvewright-sending", async () =>
    {
        Sendings sent = await sending.AllAsync();
        Halted = sent.Halt;
        await RereadAsync();
        foreach (Guid site in sent.Sites)
        {
            await (sites?.SentAsync(site) ?? Task.CompletedTask);
            Sent?.Invoke(site);
        }
    });

    /// <summary>Reads again what lies on the device: another window may have written or sent.</summary>
    public async Task RereadAsync()
    {
        records = [.. Sending.InOrder(await shelf.All<UnsentRecord>(Store))];
        Changed?.Invoke();
    }

    private async Task Keep(UnsentRecord record)
    {
        while (true)
        {
            UnsentRecord[] there = [.. await shelf.All<UnsentRecord>(Store)];
            Held<UnsentRecord>? held = await shelf.Hold<UnsentRecord>(Store, record.Id.ToString());
            UnsentRecord? before = held?.Value;
            // What waits and is changed once more stays what it was to the server: new, or resting on what the first change rested on.
            string? version = record.Version ?? (before is { Refusal: null } ? before.Version : null) ?? sending.VersionOf(record.Id);
            CarriedSite? site = sites?.Known(record.Site);
            UnsentRecord kept = record with
            {
                SiteName = record.SiteName.Length > 0 ? record.SiteName : site?.Name ?? before?.SiteName ?? "",
                Units = record.Units ?? site?.All.Site.Site.Units ?? before?.Units,
                    Clock = record.Clock ?? site?.All.Site.Site.Clock ?? before?.Clock,
                Number = before?.Number ?? there.Select(r => r.Number).DefaultIfEmpty(0).Max() + 1, Version = version,
                    Tried = record.Tried.Count > 0 ? record.Tried : before?.Tried ?? [],
            };
            if ((await shelf.Swap(Store, record.Id.ToString(), held, kept)).IsDone)
            {
                break;
            }
        }

        await RereadAsync();
    }
}
