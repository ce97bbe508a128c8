using NodaTime;
using Valvewright.App.Link;
using Valvewright.App.Person;
using Valvewright.App.Shelf;

namespace Valvewright.App.Outbox;

/// <summary>
/// What is recorded on this device and not yet on the server. Recording writes to the device first, always; sending comes after, in the
/// order in which things were recorded, and takes a record off the device only when the server has said that it keeps it.
/// </summary>
public sealed class Unsent(DeviceShelf shelf, ServerLink link, Preferences preferences, IClock clock, Device device)
{
    private const string Store = "unsent";
    private const string Photos = "photos";
    private List<UnsentRecord> records = [];

    /// <summary>All of them, the oldest first.</summary>
    public IReadOnlyList<UnsentRecord> Records => records;

    /// <summary>Raised when a record comes, goes or is refused.</summary>
    public event Action? Changed;

    /// <summary>Raised for a site when something of it reached the server.</summary>
    public event Action<Guid>? Sent;

    /// <summary>Reads what waits on the device, and sends whenever a signal comes.</summary>
    public async Task LoadAsync()
    {
        await Reread();
        device.Signal += there =>
        {
            if (there && records.Count > 0)
            {
                _ = SendAsync();
            }
        };
        await device.WatchAsync();
    }

    /// <summary>Keeps a record on the device, then tries to send.</summary>
    /// <param name="id">Its id.</param>
    /// <param name="site">Its site.</param>
    /// <param name="kind">What it is.</param>
    /// <param name="address">Where it is put.</param>
    /// <param name="type">Media type of the body.</param>
    /// <param name="body">The body as text.</param>
    /// <param name="version">The version that it rests on; null for a new record.</param>
    public async Task Record(Guid id, Guid site, string kind, string address, string type, string body, string? version = null)
    {
        await Keep(new UnsentRecord(id, site, kind, address, type, body, version, clock.GetCurrentInstant(), preferences.By));
        await SendAsync();
    }

    /// <summary>Keeps a photo on the device; it goes with the next sending.</summary>
    public async Task RecordPhoto(Guid id, Guid site, string address, string type, byte[] bytes)
    {
        await shelf.PutBytes(Photos, id.ToString(), bytes);
        await Keep(new UnsentRecord(id, site, "photo", address, type, null, null, clock.GetCurrentInstant(), preferences.By));
    }

    /// <summary>The bytes of a photo that waits.</summary>
    public Task<byte[]?> PhotoAsync(Guid id) => shelf.GetBytes(Photos, id.ToString());

    /// <summary>Throws a record away that the person does not want any more.</summary>
    public async Task Discard(UnsentRecord record)
    {
        await Drop(record);
        Changed?.Invoke();
    }

    /// <summary>Puts another record in the place of one, with what the person decided after a refusal, and sends.</summary>
    public async Task Replace(UnsentRecord record)
    {
        await Keep(record with { Refusal = null, Problem = null });
        await SendAsync();
    }

    /// <summary>Sends what waits. Where no server answers everything stays; what is refused stays with the reason.</summary>
    public Task SendAsync() => shelf.Alone("valvewright-sending", async () =>
    {
        await Reread();
        HashSet<Guid> sites = [];
        foreach (UnsentRecord record in records.Where(r => r.Refusal is null).ToArray())
        {
            if (await Content(record) is not { } content)
            {
                continue;
            }

            Reply<string> reply = await link.Put<string>(record.Address, content, record.Version);
            if (reply.IsUnreachable)
            {
                break;
            }

            if (reply.IsDone)
            {
                await Drop(record);
                sites.Add(record.Site);
            }
            else if (reply.Trouble!.Status is not (>= 500 or 429))
            {
                await Keep(record with { Refusal = reply.Trouble.Detail, Problem = reply.Trouble.Whole.ValueKind == System.Text.Json.JsonValueKind.Undefined ? null : reply.Trouble.Whole.GetRawText() });
            }
        }

        Changed?.Invoke();
        foreach (Guid site in sites)
        {
            Sent?.Invoke(site);
        }
    });

    private async Task<HttpContent?> Content(UnsentRecord record) => record.Body is { } text
        ? ServerLink.Body(text, record.Type)
        : await PhotoAsync(record.Id) is { } bytes ? ServerLink.Body(bytes, record.Type) : null;

    private async Task Keep(UnsentRecord record)
    {
        await shelf.Put(Store, record.Id.ToString(), record);
        records = [.. records.Where(r => r.Id != record.Id).Append(record).OrderBy(r => r.MadeAt).ThenBy(r => r.Id)];
        Changed?.Invoke();
    }

    private async Task Drop(UnsentRecord record)
    {
        await shelf.Remove(Store, record.Id.ToString());
        if (record.Body is null)
        {
            await shelf.Remove(Photos, record.Id.ToString());
        }

        records = [.. records.Where(r => r.Id != record.Id)];
    }

    private async Task Reread() => records = [.. (await shelf.All<UnsentRecord>(Store)).OrderBy(r => r.MadeAt).ThenBy(r => r.Id)];
}
