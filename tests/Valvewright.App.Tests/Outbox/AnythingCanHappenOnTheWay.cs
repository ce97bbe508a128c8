using NodaTime;
using NodaTime.Testing;
using Valvewright.App.Outbox;
using Valvewright.Records;

namespace Valvewright.App.Tests.Outbox;

/// <summary>Random records, corrections, photos, windows, clocks and lines: in the end the server keeps the last of each, once.</summary>
public sealed class AnythingCanHappenOnTheWay
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public async Task The_server_ends_with_the_last_word_of_each_record(int seed)
    {
        for (int round = 0; round < 60; round++)
        {
            await Round(new Random((seed * 1000) + round));
        }
    }

    private static async Task Round(Random random)
    {
        FakeDevice device = new();
        FakeServer server = new() { Fate = () => (Fate)random.Next(7) };
        FakeClock clock = new(Instant.FromUtc(2026, 7, 14, 12, 0));
        Window[] windows = [new(device, server, clock), new(device, server, clock)];
        Dictionary<Guid, string> last = [];
        Dictionary<Guid, byte[]> photos = [];
        for (int step = 0; step < 25; step++)
        {
            Window window = windows[random.Next(windows.Length)];
            clock.AdvanceMinutes(random.Next(-3000, 3000));
            switch (random.Next(5))
            {
                case 0 or 1:
                    Guid visit = last.Count > 0 && random.Next(2) == 0 ? last.Keys.ElementAt(random.Next(last.Count)) : Ids.New();
                    if (!last.ContainsKey(visit) || device.Kept.ContainsKey(("unsent", visit.ToString())))
                    {
                        last[visit] = $"word {step}";
                        await window.Record(visit, last[visit]);
                    }

                    break;
                case 2 when last.Count > 0:
                    Guid photo = Ids.New(), of = last.Keys.ElementAt(random.Next(last.Count));
                    photos[photo] = [(byte)step];
                    await window.Photo(photo, of, photos[photo]);
                    break;
                case 3:
                    await Task.WhenAll(windows.Select(w => w.Unsent.SendAsync()));
                    break;
                default:
                    // The browser is closed and opened again.
                    windows[random.Next(windows.Length)] = new Window(device, server, clock);
                    break;
            }
        }

        server.Fate = () => Fate.Arrives;
        await windows[0].Unsent.SendAsync();
        await windows[0].Unsent.SendAsync();
        Assert.Empty(windows[0].Unsent.Records);
        // Photos that were sent stay to be seen, and nothing but what their list names.
        Assert.Equal(photos.Keys.Select(p => p.ToString()).Order(),
            device.Kept.Keys.Where(k => k.Store == "photos").Select(k => k.Key).Order());
        await new SentPhotos(windows[0].Shelf).MakeRoomAsync();
        Assert.Empty(device.Kept);
        Assert.Equal(last.Count + photos.Count, server.Kept.Count);
        Assert.All(last, l => Assert.Equal(Window.Visit(l.Value), server.Kept[Window.Address(l.Key)].Body));
    }
}
