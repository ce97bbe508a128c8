using System.Text.Json;
using Microsoft.JSInterop;
using Valvewright.App.Ready;
using Valvewright.Files.Texts;

namespace Valvewright.App.Shelf;

/// <summary>The device's own database (<c>js/shelf.js</c>): values as JSON, photos as bytes.</summary>
public sealed class DeviceShelf(IJSRuntime scripts)
{
    private readonly Lazy<Task<IJSObjectReference>> module =
        new(() => scripts.InvokeAsync<IJSObjectReference>("import", "./js/shelf.js").AsTask());

    /// <summary>A value; null where there is none.</summary>
    public async Task<T?> Get<T>(string store, string key)
        where T : class => await (await module.Value).InvokeAsync<string?>("get", store, key) is { } text ? PageJson.Read<T>(text) : null;

    /// <summary>All values of a store.</summary>
    public async Task<IReadOnlyList<T>> All<T>(string store) =>
        [.. (await (await module.Value).InvokeAsync<string[]>("all", store)).Select(t => PageJson.Read<T>(t)!)];

    /// <summary>All keys of a store.</summary>
    public async Task<IReadOnlyList<string>> Keys(string store) => await (await module.Value).InvokeAsync<string[]>("keys", store);

    /// <summary>Keeps a value; it is on the device's disk when this ends.</summary>
    /// <exception cref="ShelfException">The device does not take it; what was there stays.</exception>
    public Task Put<T>(string store, string key, T value) => Write("put", store, key, TextOf(value));

    /// <summary>A value with the text that it lies there as; null where there is none.</summary>
    public async Task<Held<T>?> Hold<T>(string store, string key)
        where T : class => await (await module.Value).InvokeAsync<string?>("get", store, key) is { } text
            ? new Held<T>(PageJson.Read<T>(text)!, text) : null;

    /// <summary>Changes a value where it is still the one that the change rests on.</summary>
    /// <param name="store">The store.</param>
    /// <param name="key">Its key.</param>
    /// <param name="held">The value as it was read; null: there was none.</param>
    /// <param name="value">What it shall be; null: removed.</param>
    /// <returns>The value as it lies there now; null where it was removed, or where another window was first, and then
    /// <paramref name="held"/> no longer lies there.</returns>
    /// <exception cref="ShelfException">The device does not take it; what was there stays.</exception>
    public async Task<(bool IsDone, Held<T>? Held)> Swap<T>(string store, string key, Held<T>? held, T? value)
        where T : class
    {
        string? text = value is null ? null : TextOf(value);
        try
        {
            bool done = await (await module.Value).InvokeAsync<bool>("swap", store, key, held?.Text, text);
            return (done, done && value is not null ? new Held<T>(value, text!) : null);
        }
        catch (JSException reason)
        {
            throw new ShelfException(reason);
        }
    }

    /// <summary>Keeps bytes.</summary>
    /// <exception cref="ShelfException">The device does not take them.</exception>
    public Task PutBytes(string store, string key, byte[] bytes) => Write("put", store, key, bytes);

    /// <summary>Bytes; null where there are none.</summary>
    public async Task<byte[]?> GetBytes(string store, string key) => await (await module.Value).InvokeAsync<byte[]?>("get", store, key);

    /// <summary>Keeps a site. Cards that lie ready of another version of it go in the same step: none of them may be shown any
    /// more.</summary>
    /// <exception cref="ShelfException">The device does not take it; what was there stays.</exception>
    public Task PutSite(CarriedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return Write("putSite", site.Id.ToString(), site.Write(), site.ETag);
    }

    /// <summary>A site; null where it is not on the device.</summary>
    public async Task<CarriedSite?> Site(Guid site) =>
        await (await module.Value).InvokeAsync<byte[]?>("site", site.ToString()) is { } kept ? CarriedSite.Read(kept) : null;

    /// <summary>Removes a site, and with it the cards that lie ready of it.</summary>
    public Task RemoveSite(Guid site) => Write("removeSite", site.ToString());

    /// <summary>A card that lies ready; null where none does.</summary>
    public async Task<ReadyCard?> ReadyCard(Guid site, Language language, string controller) =>
        await (await module.Value).InvokeAsync<string?>("ready", site.ToString(), CodeOf(language), controller) is { } text
            ? PageJson.Read<ReadyCard>(text) : null;

    /// <summary>Lays a card ready, unless the device has another version of the site by now.</summary>
    /// <param name="site">The site.</param>
    /// <param name="language">The card's language.</param>
    /// <param name="card">The card.</param>
    /// <param name="isOnly">Whether it is shown also where no controller is named.</param>
    /// <returns>Whether it lies there now.</returns>
    /// <exception cref="ShelfException">The device does not take it.</exception>
    public async Task<bool> PutReady(Guid site, Language language, ReadyCard card, bool isOnly)
    {
        ArgumentNullException.ThrowIfNull(card);
        try
        {
            return await (await module.Value).InvokeAsync<bool>(
                "putReady", site.ToString(), CodeOf(language), card.Controller, TextOf(card), card.Version, isOnly);
        }
        catch (JSException reason)
        {
            throw new ShelfException(reason);
        }
    }

    /// <summary>What the work at a site's controllers needs, as JSON; null where it does not lie ready.</summary>
    public async Task<string?> SheetAsync(Guid site, Language language) =>
        await (await module.Value).InvokeAsync<string?>("at", site.ToString(), CodeOf(language));

    /// <summary>Lays it ready, where the site is on the device.</summary>
    /// <exception cref="ShelfException">The device does not take it.</exception>
    public Task PutSheetAsync(Guid site, Language language, string sheet) => Write("putAt", site.ToString(), CodeOf(language), sheet);

    /// <summary>Removes a value.</summary>
    public Task Remove(string store, string key) => Write("remove", store, key);

    /// <summary>Does something while no other window of the page does it.</summary>
    public async Task Alone(string name, Func<Task> work)
    {
        using DotNetObjectReference<Turn> turn = DotNetObjectReference.Create(new Turn(work));
        await (await module.Value).InvokeVoidAsync("alone", name, turn);
    }

    private static string CodeOf(Language language) => language == Language.Spanish ? "es" : "en";

    /// <summary>Takes for this window what is written in one window at a time; false where another one has it.</summary>
    /// <param name="name">What.</param>
    /// <param name="lost">Called when another window takes it over.</param>
    /// <param name="over">Whether it is taken over from the window that has it.</param>
    public async Task<bool> TakeAsync(string name, DotNetObjectReference<Turn> lost, bool over) =>
        await (await module.Value).InvokeAsync<bool>("take", name, lost, over);

    /// <summary>Lets another window have it.</summary>
    public async Task LetGoAsync(string name) => await (await module.Value).InvokeVoidAsync("letGo", name);

    private static string TextOf<T>(T value) => JsonSerializer.Serialize(value, PageJson.Compact);

    private async Task Write(string function, params object?[] given)
    {
        try
        {
            await (await module.Value).InvokeVoidAsync(function, given);
        }
        catch (JSException reason)
        {
            throw new ShelfException(reason);
        }
    }

    /// <summary>Work that the browser calls when its turn has come.</summary>
    public sealed class Turn(Func<Task> work)
    {
        /// <summary>Does it.</summary>
        [JSInvokable]
        public Task Run() => work();
    }
}

/// <summary>A value of the device's database, with the text that it lies there as.</summary>
/// <param name="Value">The value.</param>
/// <param name="Text">The text.</param>
public sealed record Held<T>(T Value, string Text);

/// <summary>The device did not keep what it was given. Nothing of it was written.</summary>
public sealed class ShelfException(Exception reason) : Exception(reason?.Message, reason)
{
    /// <summary>Whether the device has no room left.</summary>
    public bool IsFull { get; } = reason?.Message.Contains("QuotaExceeded", StringComparison.Ordinal) == true;
}
