using Microsoft.JSInterop;

namespace Valvewright.App.Person;

/// <summary>What only the browser can do (<c>js/device.js</c>): what it remembers, signal, files out, the look of the page.</summary>
public sealed class Device(IJSRuntime scripts) : IAsyncDisposable
{
    private readonly Lazy<Task<IJSObjectReference>> module =
        new(() => scripts.InvokeAsync<IJSObjectReference>("import", "./js/device.js").AsTask());
    private DotNetObjectReference<Device>? self;

    /// <summary>Raised when the browser says that a signal came or went, or that the page is looked at again.</summary>
    public event Action<bool>? Signal;

    /// <summary>Calls a function of the module.</summary>
    public async Task<T> Ask<T>(string function, params object?[] given) => await (await module.Value).InvokeAsync<T>(function, given);

    /// <summary>Calls a function of the module that answers nothing.</summary>
    public async Task Tell(string function, params object?[] given) => await (await module.Value).InvokeVoidAsync(function, given);

    /// <summary>Begins to raise <see cref="Signal"/>.</summary>
    public async Task WatchAsync()
    {
        if (self is null)
        {
            self = DotNetObjectReference.Create(this);
            await Tell("watchSignal", self);
        }
    }

    /// <summary>Called by the browser.</summary>
    [JSInvokable]
    public void SignalChanged(bool there) => Signal?.Invoke(there);

    /// <summary>Saves bytes as a file of the person's.</summary>
    public Task SaveAsync(string name, string type, byte[] bytes) => Tell("saveFile", name, type, bytes);

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        self?.Dispose();
        if (module.IsValueCreated)
        {
            await (await module.Value).DisposeAsync();
        }
    }
}
