using System.Net;
using System.Net.Http.Headers;
using System.Text;
using Valvewright.App.Person;
using Valvewright.App.Shelf;

namespace Valvewright.App.Link;

/// <summary>The way to the server. Never throws for what a server or a bad connection can do.</summary>
public sealed class ServerLink(HttpClient http, Preferences preferences)
{
    /// <summary>Whether the last request reached a server; null before the first.</summary>
    public bool? IsReached { get; private set; }

    /// <summary>Whether the server asks who this is: then it counts as no server, and what waits is sent after the sign-in.</summary>
    public bool IsSignedOut { get; private set; }

    /// <summary>Raised when <see cref="IsReached"/> or <see cref="IsSignedOut"/> changes.</summary>
    public event Action? Changed;

    /// <summary>Asks for a value.</summary>
    /// <param name="address">The address below the page's, such as <c>api/sites</c>.</param>
    /// <param name="known">The version that is at hand: where it still stands, the answer has no value and status 304 as its
    /// trouble.</param>
    public Task<Reply<T>> Get<T>(string address, string? known = null) => Send<T>(HttpMethod.Get, address, null, r =>
    {
        if (known is not null)
        {
            r.Headers.TryAddWithoutValidation("If-None-Match", known);
        }
    });

    /// <summary>Asks for bytes.</summary>
    public Task<Reply<byte[]>> GetBytes(string address) => Send<byte[]>(HttpMethod.Get, address, null, null);

    /// <summary>Keeps a record. Without a version only a new one, or one that says the same, is taken.</summary>
    /// <param name="address">The address below the page's.</param>
    /// <param name="body">The record.</param>
    /// <param name="version">The version that the change rests on.</param>
    /// <param name="by">Who recorded it; the person of this device when not given.</param>
    public Task<Reply<T>> Put<T>(string address, HttpContent body, string? version = null, string? by = null) =>
        Send<T>(HttpMethod.Put, Signed(address, by), body, r => Rest(r, version));

    /// <summary>Asks for work, or for something to be understood.</summary>
    public Task<Reply<T>> Post<T>(string address, HttpContent? body) => Send<T>(HttpMethod.Post, Signed(address), body, null);

    /// <summary>Removes a record, or stops a job.</summary>
    public Task<Reply<T>> Delete<T>(string address, string? version = null) =>
        Send<T>(HttpMethod.Delete, Signed(address), null, r => Rest(r, version));

    /// <summary>A value as the body of a request.</summary>
    public static HttpContent Body<T>(T value) =>
        new StringContent(System.Text.Json.JsonSerializer.Serialize(value, Json.Compact), Encoding.UTF8, "application/json");

    /// <summary>Text of a type as the body of a request.</summary>
    public static HttpContent Body(string text, string type) => new StringContent(text, Encoding.UTF8, type);

    /// <summary>Bytes of a type as the body of a request.</summary>
    public static HttpContent Body(byte[] bytes, string type) =>
        new ByteArrayContent(bytes) { Headers = { ContentType = new MediaTypeHeaderValue(type) } };

    private string Signed(string address, string? by = null) => (by ?? preferences.By) is { Length: > 0 } name
        ? $"{address}{(address.Contains('?', StringComparison.Ordinal) ? '&' : '?')}by={Uri.EscapeDataString(name)}"
        : address;

    private static void Rest(HttpRequestMessage request, string? version)
    {
        if (version is not null)
        {
            request.Headers.TryAddWithoutValidation("If-Match", version);
        }
    }

    private async Task<Reply<T>> Send<T>(HttpMethod method, string address, HttpContent? body, Action<HttpRequestMessage>? with)
    {
        using HttpRequestMessage request = new(method, address) { Content = body };
        with?.Invoke(request);
        HttpResponseMessage answer;
        byte[] bytes;
        try
        {
            answer = await http.SendAsync(request);
            bytes = await answer.Content.ReadAsByteArrayAsync();
        }
        catch (Exception reason) when (reason is HttpRequestException or TaskCanceledException)
        {
            Reached(false);
            return new Reply<T>(default, null, null, true);
        }

        // Something between here and the server may answer in its place: when the server is gone, or before a person has signed in to a
        // network.
        SignedOut((int)answer.StatusCode == 401);
        if ((int)answer.StatusCode is 401 or 502 or 504 || !IsServers(answer, bytes, typeof(T)))
        {
            Reached(false);
            return new Reply<T>(default, null, null, true) { IsStranger = (int)answer.StatusCode is not (502 or 504) };
        }

        string? tag = answer.Headers.TryGetValues("ETag", out IEnumerable<string>? tags) ? tags.First() : null;
        if (!answer.IsSuccessStatusCode)
        {
            Reached(true);
            return new Reply<T>(default, tag, Trouble.Read((int)answer.StatusCode, Encoding.UTF8.GetString(bytes)), false);
        }

        try
        {
            T? value = ValueOf<T>(bytes);
            Reached(true);
            return new Reply<T>(value, tag, null, false);
        }
        catch (System.Text.Json.JsonException)
        {
            Reached(false);
            return new Reply<T>(default, null, null, true) { IsStranger = true };
        }
    }

    /// <summary>Whether the answer can be the server's own: JSON where a value was asked for, a problem document where it is refused, never
    /// a page.</summary>
    private static bool IsServers(HttpResponseMessage answer, byte[] bytes, Type wanted)
    {
        string type = answer.Content.Headers.ContentType?.MediaType ?? "";
        if (answer.StatusCode is HttpStatusCode.NotModified or HttpStatusCode.NoContent)
        {
            return true;
        }

        if (!answer.IsSuccessStatusCode)
        {
            return type is "application/problem+json" or "application/json"
                && Trouble.Read((int)answer.StatusCode, Encoding.UTF8.GetString(bytes)).Kind.Length > 0;
        }

        return wanted == typeof(byte[]) || wanted == typeof(string) ? type != "text/html" : type == "application/json";
    }

    private static T? ValueOf<T>(byte[] bytes) =>
        typeof(T) == typeof(byte[]) ? (T)(object)bytes
        : typeof(T) == typeof(string) ? (T)(object)Encoding.UTF8.GetString(bytes)
        : bytes.Length == 0 ? default
        : System.Text.Json.JsonSerializer.Deserialize<T>(bytes, PageJson.Options);

    private void SignedOut(bool so)
    {
        if (IsSignedOut != so)
        {
            IsSignedOut = so;
            Changed?.Invoke();
        }
    }

    private void Reached(bool there)
    {
        if (IsReached != there)
        {
            IsReached = there;
            Changed?.Invoke();
        }
    }
}
