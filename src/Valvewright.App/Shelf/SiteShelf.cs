using Valvewright.App.Link;
using Valvewright.App.Outbox;
using Valvewright.Records.Carrying;
using Valvewright.Records.Views;

namespace Valvewright.App.Shelf;

/// <summary>The sites that this device carries, and how they are brought up to date.</summary>
public sealed class SiteShelf(DeviceShelf shelf, ServerLink link, IClock clock)
{
    private const string Store = "sites";
    private readonly Dictionary<Guid, CarriedSite> opened = [];

    /// <summary>The site that was opened last; the frame shows the way through it.</summary>
    public CarriedSite? Current { get; private set; }

    /// <summary>Raised when a site on the device was brought up to date or removed, or another one is current.</summary>
    public event Action? Changed;

    /// <summary>Raised for a site that was opened, or that came to the device or was brought up to date there.</summary>
    public event Action<CarriedSite>? Held;

    /// <summary>The sites on the device and, where a server answers, those that it has besides.</summary>
    public async Task<SiteList> ListAsync()
    {
        List<CarriedLine> carried = [.. (await CarriedAsync()).Select(s => new CarriedLine(s.Id, s.Name, s.FetchedAt, s.All.Site.Version))];
        Reply<ListOf<SiteLine>> reply = await link.Get<ListOf<SiteLine>>("api/sites");
        return new SiteList([.. carried.OrderBy(c => c.Name, StringComparer.CurrentCulture)], reply.Value, reply.Trouble);
    }

    /// <summary>The sites on the device, whole.</summary>
    public async Task<IReadOnlyList<CarriedSite>> CarriedAsync()
    {
        List<CarriedSite> all = [];
        foreach (string key in await shelf.Keys(Store))
        {
            if (Guid.TryParse(key, out Guid id) && (opened.GetValueOrDefault(id) ?? await shelf.Site(id)) is { } site)
            {
                all.Add(site);
            }
        }

        return all;
    }

    /// <summary>Opens a site: from the device at once where it is there, else from the server.</summary>
    /// <param name="id">The site.</param>
    /// <returns>The site, or why there is none.</returns>
    public async Task<Reply<CarriedSite>> OpenAsync(Guid id)
    {
        if ((opened.GetValueOrDefault(id) ?? await shelf.Site(id)) is { } kept)
        {
            SetCurrent(kept);
            return new Reply<CarriedSite>(kept, kept.ETag, null, false);
        }

        Reply<CarriedSite> fetched = await RefreshAsync(id);
        if (fetched.Value is { } site)
        {
            SetCurrent(site);
        }

        return fetched;
    }

    /// <summary>Brings a site up to date. The one on the device stays where no server answers.</summary>
    public async Task<Reply<CarriedSite>> RefreshAsync(Guid id)
    {
        CarriedSite? kept = opened.GetValueOrDefault(id) ?? await shelf.Site(id);
        Reply<CarryView> reply = await link.Get<CarryView>($"api/sites/{id}/carry.json", kept is { IsNotSent: false } ? kept.ETag : null);
        if (reply.Trouble is { Status: 304 } && kept is not null)
        {
            return await Hold(kept with { FetchedAt = clock.GetCurrentInstant() });
        }

        return reply.Value is { } all
            ? await Hold(CarriedSite.Of(id, reply.ETag ?? "", clock.GetCurrentInstant(), all))
            : new Reply<CarriedSite>(kept, kept?.ETag, reply.Trouble, reply.IsUnreachable);
    }

    /// <summary>Lets a new site be opened here before the server has it; one that came from the server stays as it is.</summary>
    /// <exception cref="ShelfException">The device does not keep it.</exception>
    public async Task KeepNotSentAsync(CarriedSite site)
    {
        if ((opened.GetValueOrDefault(site.Id) ?? await shelf.Site(site.Id)) is null or { IsNotSent: true })
        {
            await Hold(site);
        }
    }

    /// <summary>Where something of a site was sent that was made here: takes it as the server has it now.</summary>
    public async Task SentAsync(Guid id)
    {
        if ((opened.GetValueOrDefault(id) ?? await shelf.Site(id)) is { IsNotSent: true })
        {
            await RefreshAsync(id);
        }
    }

    /// <summary>Takes a site off the device that was never sent and no longer waits to be.</summary>
    public async Task ForgetNotSentAsync(Guid id)
    {
        if ((opened.GetValueOrDefault(id) ?? await shelf.Site(id)) is { IsNotSent: true })
        {
            await ForgetAsync(id);
        }
    }

    /// <summary>Takes a site off the device. Nothing that waits to be sent is touched.</summary>
    public async Task ForgetAsync(Guid id)
    {
        await shelf.RemoveSite(id);
        await new SentPhotos(shelf).ForgetAsync(id);
        opened.Remove(id);
        if (Current?.Id == id)
        {
            Current = null;
        }

        Changed?.Invoke();
    }

    /// <summary>A site that was opened in this window; null for any other.</summary>
    public CarriedSite? Known(Guid id) => opened.GetValueOrDefault(id);

    /// <summary>No site is current.</summary>
    public void Leave() => SetCurrent(null);

    private async Task<Reply<CarriedSite>> Hold(CarriedSite site)
    {
        await shelf.PutSite(site);
        opened[site.Id] = site;
        if (Current?.Id == site.Id)
        {
            Current = site;
        }

        Changed?.Invoke();
        Held?.Invoke(site);
        return new Reply<CarriedSite>(site, site.ETag, null, false);
    }

    private void SetCurrent(CarriedSite? site)
    {
        if (site is not null)
        {
            opened[site.Id] = site;
        }

        if (Current != site)
        {
            Current = site;
            Changed?.Invoke();
            if (site is not null)
            {
                Held?.Invoke(site);
            }
        }
    }
}

/// <summary>A site on the device, in a list.</summary>
public sealed record CarriedLine(Guid Id, string Name, Instant FetchedAt, long Version);

/// <summary>Sites here and there.</summary>
/// <param name="Carried">On the device.</param>
/// <param name="OnServer">On the server; null where none answered.</param>
/// <param name="Trouble">Why the server would not say.</param>
public sealed record SiteList(ListOf<CarriedLine> Carried, ListOf<SiteLine>? OnServer, Trouble? Trouble);
