using Valvewright.App.Shelf;

namespace Valvewright.App.Pages.Cards;

/// <summary>What has been set of a card. Kept on the device, so that a call, a locked screen or an empty battery loses no
/// place.</summary>
public sealed class CardTicks
{
    private const string Store = "drafts";
    private readonly DeviceShelf shelf;
    private readonly string name;
    private readonly HashSet<string> ticked;

    private CardTicks(DeviceShelf shelf, string name, IEnumerable<string> ticked) =>
        (this.shelf, this.name, this.ticked) = (shelf, name, [.. ticked]);

    /// <summary>How many lines are ticked of those.</summary>
    public int CountOf(IEnumerable<KeyLine> lines) => lines.Count(IsTicked);

    /// <summary>Whether a line is ticked.</summary>
    public bool IsTicked(KeyLine line) => ticked.Contains(line.Key);

    /// <summary>Where the device keeps the ticks of a card. Programs that differ have another check text and start without ticks.</summary>
    public static string NameOf(Guid site, string controller, string check) => $"ticks {site} {check} {controller}";

    /// <summary>The ticks of a card as the device has them.</summary>
    public static async Task<CardTicks> OfAsync(DeviceShelf shelf, Guid site, string controller, string check)
    {
        string name = NameOf(site, controller, check);
        return new CardTicks(shelf, name, await shelf.Get<Ticked>(Store, name) is { } kept ? kept.Keys : []);
    }

    /// <summary>Ticks a line, or takes its tick away.</summary>
    public async Task SetAsync(KeyLine line, bool isTicked)
    {
        if (isTicked ? ticked.Add(line.Key) : ticked.Remove(line.Key))
        {
            await shelf.Put(Store, name, new Ticked([.. ticked.Order(StringComparer.Ordinal)]));
        }
    }

    /// <summary>Takes all ticks away: the card is set, or begun again.</summary>
    public async Task ClearAsync()
    {
        ticked.Clear();
        await shelf.Remove(Store, name);
    }

    /// <summary>As kept on the device.</summary>
    public sealed record Ticked(ListOf<string> Keys);
}
