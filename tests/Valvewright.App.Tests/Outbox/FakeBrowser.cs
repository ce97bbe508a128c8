using Microsoft.JSInterop;
using Valvewright.App.Shelf;

namespace Valvewright.App.Tests.Outbox;

/// <summary>A device: its database and locks as the page's scripts offer them (<c>js/shelf.js</c>), shared by all windows on it.</summary>
internal sealed class FakeDevice
{
    private Task last = Task.CompletedTask;

    /// <summary>The stores: text or bytes by key.</summary>
    public Dictionary<(string Store, string Key), object> Kept { get; } = [];

    /// <summary>Whether it has no room left.</summary>
    public bool IsFull { get; set; }

    /// <summary>How many photos it has room for.</summary>
    public int MostPhotos { get; set; } = int.MaxValue;

    /// <summary>Whether it counts hours to twelve, and whether its units are US ones.</summary>
    public bool[] Habits { get; set; } = [false, false];

    /// <summary>A window of the page.</summary>
    public IJSRuntime Window() => new Scripts(this);

    private object? Call(string function, object?[] given)
    {
        (string, string) Place() => ((string)given[0]!, (string)given[1]!);
        switch (function)
        {
            case "get":
                return Kept.GetValueOrDefault(Place());
            case "put":
                Kept[Room(Place())] = given[2]!;
                return null;
            case "swap":
                if (!Equals(Kept.GetValueOrDefault(Place()), given[2]))
                {
                    return false;
                }

                if (given[3] is null)
                {
                    Kept.Remove(Place());
                }
                else
                {
                    Kept[Room(Place())] = given[3]!;
                }

                return true;
            case "remove":
                Kept.Remove(Place());
                return null;
            case "all":
                return Kept.Where(k => k.Key.Store == (string)given[0]!).Select(k => (string)k.Value).ToArray();
            case "putSite":
                Kept[Room(("sites", (string)given[0]!))] = given[1]!;
                if (!Equals(Kept.GetValueOrDefault(("ready", (string)given[0]!)), given[2]))
                {
                    RemoveReady((string)given[0]!);
                    Kept[("ready", (string)given[0]!)] = given[2]!;
                }

                return null;
            case "site":
                return Kept.GetValueOrDefault(("sites", (string)given[0]!));
            case "keys":
                return Kept.Keys.Where(k => k.Store == (string)given[0]!).Select(k => k.Key).ToArray();
            case "removeSite":
                Kept.Remove(("sites", (string)given[0]!));
                RemoveReady((string)given[0]!);
                RemoveReady($"at {given[0]}");
                return null;
            case "ready":
                return Kept.GetValueOrDefault(("ready", $"{given[0]} {given[1]} {given[2]}"));
            case "putReady":
                if (!Kept.ContainsKey(("sites", (string)given[0]!))
                    || !Equals(Kept.GetValueOrDefault(("ready", (string)given[0]!), given[4]!), given[4]))
                {
                    return false;
                }

                Kept[Room(("ready", $"{given[0]} {given[1]} {given[2]}"))] = given[3]!;
                return true;
            case "at":
                return Kept.GetValueOrDefault(("ready", $"at {given[0]} {given[1]}"));
            case "putAt":
                if (Kept.ContainsKey(("sites", (string)given[0]!)))
                {
                    Kept[Room(("ready", $"at {given[0]} {given[1]}"))] = given[2]!;
                }

                return null;
            case "habits":
                return Habits;
            case "language":
                return "en";
            default:
                return null;
        }
    }

    private void RemoveReady(string site)
    {
        foreach ((string, string) place in Kept.Keys
            .Where(k => k.Store == "ready" && k.Key.StartsWith(site, StringComparison.Ordinal)).ToArray())
        {
            Kept.Remove(place);
        }
    }

    private (string, string) Room((string Store, string) place) => IsFull || (place.Store == "photos" && !Kept.ContainsKey(place)
        && Kept.Keys.Count(k => k.Store == "photos") >= MostPhotos) ? throw new JSException("QuotaExceededError: no room") : place;

    private Task AloneAsync(DotNetObjectReference<DeviceShelf.Turn> work)
    {
        lock (Kept)
        {
            return last = After(last, work);
        }
    }

    private static async Task After(Task before, DotNetObjectReference<DeviceShelf.Turn> work)
    {
        await before;
        await work.Value.Run();
    }

    private sealed class Scripts(FakeDevice device) : IJSRuntime, IJSObjectReference
    {
        public async ValueTask<TValue> InvokeAsync<TValue>(string identifier, object?[]? args)
        {
            // The browser answers later, never at once: what else can happen meanwhile shall happen.
            await Task.Yield();
            if (identifier == "import")
            {
                return (TValue)(object)this;
            }

            if (identifier == "alone")
            {
                await device.AloneAsync((DotNetObjectReference<DeviceShelf.Turn>)args![1]!);
                return default!;
            }

            return device.Call(identifier, args ?? []) is { } answer ? (TValue)answer : default!;
        }

        public ValueTask<TValue> InvokeAsync<TValue>(string identifier, CancellationToken cancellationToken, object?[]? args) =>
            InvokeAsync<TValue>(identifier, args);

        public ValueTask DisposeAsync() => ValueTask.CompletedTask;
    }
}
