using Microsoft.JSInterop;
using Valvewright.Engine.Values;

namespace Valvewright.App.Shelf;

/// <summary>The device's own database (<c>js/shelf.js</c>): values as JSON, photos as bytes.</summary>
public sealed class DeviceShelf(IJSRuntime scripts)
{
    private readonly Lazy<Task<IJSObjectReference>> module = new(() => scripts.InvokeAsync<IJSObjectReference>("import", "./js/shelf.js").AsTask());

    /// <summary>A value; null where there is none.</summary>
    public async Task<T?> Get<T>(string store, string key)
        where T : class => await (await module.Value).InvokeAsync<string?>("get", store, key) is { } text ? Json.Read<T>(text) : null;

    /// <summary>All values of a store.</summary>
    public async Task<IReadOnlyList<T>> All<T>(string store) => [.. (await (await module.Value).InvokeAsync<string[]>("all", store)).Select(t => Json.Read<T>(t)!)];

    /// <summary>All keys of a store.</summary>
    public async Task<IReadOnlyList<string>> Keys(string store) => await (await module.Value).InvokeAsync<string[]>("keys", store);

    /// <summary>Keeps a value; it is on the device's disk when this ends.</summary>
    public async Task Put<T>(string store, string key, T value) =>
        await (await module.Value).InvokeVoidAsync("put", store, key, System.Text.Json.JsonSerializer.Serialize(value, Json.Compact));

    /// <summary>Keeps bytes.</summary>
    public async Task PutBytes(string store, string key, byte[] bytes) => await (await module.Value).InvokeVoidAsync("put", store, key, bytes);

    /// <summary>Bytes; null where there are none.</summary>
    public async Task<byte[]?> GetBytes(string store, string key) => await (await module.Value).InvokeAsync<byte[]?>("get", store, key);

    /// <summary>Removes a value.</summary>
    public async Task Remove(string store, string key) => await (await module.Value).InvokeVoidAsync("remove", store, key);

    /// <summary>Does something while no other window of the page does it.</summary>
    public async Task Alone(string name, Func<Task> work)
    {
        using DotNetObjectReference<Turn> turn = DotNetObjectReference.Create(new Turn(work));
        await (await module.Value).InvokeVoidAsync("alone", name, turn);
    }

    private sealed class Turn(Func<Task> work)
    {
        [JSInvokable]
        public Task Run() => work();
    }
}
