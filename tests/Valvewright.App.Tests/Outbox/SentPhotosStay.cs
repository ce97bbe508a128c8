using NodaTime;
using NodaTime.Testing;
using Valvewright.App.Outbox;
using Valvewright.App.Shelf;
using Valvewright.Records;

namespace Valvewright.App.Tests.Outbox;

/// <summary>Photos that were sent stay on the device to be seen without a signal, the newest of them, and give way to what is not
/// sent.</summary>
public sealed class SentPhotosStay : IDisposable
{
    private readonly FakeDevice device = new();
    private readonly FakeServer server = new();
    private readonly Guid visit = Ids.New();

    public void Dispose() => server.Dispose();

    private Window Open() => new(device, server, new FakeClock(Instant.FromUtc(2026, 7, 14, 12, 0)));

    private IEnumerable<string> Bytes => device.Kept.Keys.Where(k => k.Store == "photos").Select(k => k.Key);

    [Fact]
    public async Task What_was_sent_can_still_be_seen()
    {
        Window window = Open();
        await window.Record(visit, "");
        Guid photo = Ids.New();
        await window.Photo(photo, visit, [1, 2, 3]);
        await window.Unsent.SendAsync();
        Assert.Empty(window.Unsent.Records);
        Assert.Equal([1, 2, 3], await Open().Unsent.PhotoAsync(photo));
    }

    [Fact]
    public async Task The_oldest_go_first()
    {
        Window window = Open();
        Guid[] photos = [.. Enumerable.Range(0, 4).Select(_ => Ids.New())];
        foreach (Guid photo in photos)
        {
            await window.Shelf.PutBytes("photos", photo.ToString(), new byte[20_000_000]);
            await new SentPhotos(window.Shelf).KeepAsync(photo, Window.Site);
        }

        Assert.Equal(new[] { photos[2].ToString(), photos[3].ToString() }.Order(), Bytes.Order());
        await new SentPhotos(window.Shelf).KeepAsync(photos[2], Window.Site);
        Assert.Equal(new[] { photos[2].ToString(), photos[3].ToString() }.Order(), Bytes.Order());
    }

    [Fact]
    public async Task They_go_with_their_site_and_no_others_do()
    {
        Window window = Open();
        SentPhotos sent = new(window.Shelf);
        Guid one = Ids.New(), other = Ids.New(), waiting = Ids.New(), elsewhere = Ids.New();
        foreach (Guid photo in (Guid[])[one, other, waiting])
        {
            await window.Shelf.PutBytes("photos", photo.ToString(), [1]);
        }

        await sent.KeepAsync(one, Window.Site);
        await sent.KeepAsync(other, elsewhere);
        await sent.ForgetAsync(Window.Site);
        Assert.Equal(new[] { other.ToString(), waiting.ToString() }.Order(), Bytes.Order());
    }

    [Fact]
    public async Task They_give_way_where_the_device_is_full()
    {
        Window window = Open();
        Guid old = Ids.New(), fresh = Ids.New();
        await window.Shelf.PutBytes("photos", old.ToString(), [1]);
        await new SentPhotos(window.Shelf).KeepAsync(old, Window.Site);
        device.MostPhotos = 1;
        await window.Photo(fresh, visit, [2]);
        Assert.Equal([fresh.ToString()], Bytes);
        await Assert.ThrowsAsync<ShelfException>(() => window.Photo(Ids.New(), visit, [3]));
        Assert.Equal([fresh.ToString()], Bytes);
    }
}
