using System.Text.Json;

namespace Valvewright.App.Link;

/// <summary>A problem that the server told (RFC 9457).</summary>
/// <param name="Kind">The word after <c>/problems/</c>.</param>
/// <param name="Status">HTTP status.</param>
/// <param name="Detail">A sentence.</param>
/// <param name="Whole">All members, for those who know more of this kind.</param>
public sealed record Trouble(string Kind, int Status, string Detail, JsonElement Whole)
{
    /// <summary>Reads a problem document; anything else becomes a problem that says its status.</summary>
    public static Trouble Read(int status, string text)
    {
        try
        {
            JsonElement whole = JsonSerializer.Deserialize<JsonElement>(text, Json.Options);
            string type = whole.TryGetProperty("type", out JsonElement t) ? t.GetString() ?? "" : "";
            string detail = whole.TryGetProperty("detail", out JsonElement d) ? d.GetString() ?? "" : "";
            return new Trouble(type[(type.LastIndexOf('/') + 1)..], status, detail, whole);
        }
        catch (Exception reason) when (reason is JsonException or InvalidOperationException)
        {
            return new Trouble("", status, $"HTTP {status}", default);
        }
    }

    /// <summary>A member as text; null where there is none.</summary>
    public string? Member(string name) =>
        Whole.ValueKind == JsonValueKind.Object && Whole.TryGetProperty(name, out JsonElement value)
            ? value.ValueKind == JsonValueKind.String ? value.GetString() : value.GetRawText() : null;

    /// <summary>A member as a value; the default where there is none.</summary>
    public T? Member<T>(string name) =>
        Whole.ValueKind == JsonValueKind.Object && Whole.TryGetProperty(name, out JsonElement value)
            ? value.Deserialize<T>(Json.Options) : default;
}
