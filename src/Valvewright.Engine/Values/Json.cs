using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using NodaTime;
using NodaTime.Serialization.SystemTextJson;

namespace Valvewright.Engine.Values;

/// <summary>The one way that values of the engine are written as JSON and read back.</summary>
public static class Json
{
    /// <summary>Camel-case names, enums as words, NodaTime in ISO form, NaN and infinities as named literals, indented.</summary>
    public static JsonSerializerOptions Options { get; } = Make();

    /// <summary>The same on one line.</summary>
    public static JsonSerializerOptions Compact { get; } = new(Options) { WriteIndented = false };

    /// <summary>Writes a value as indented JSON.</summary>
    public static string Write<T>(T value) => JsonSerializer.Serialize(value, Options);

    /// <summary>Reads a value; null only where the text is the word <c>null</c>.</summary>
    /// <exception cref="JsonException">The text is not JSON of that shape.</exception>
    public static T? Read<T>(string text) => JsonSerializer.Deserialize<T>(text, Options);

    private static JsonSerializerOptions Make()
    {
        JsonSerializerOptions options = new(JsonSerializerDefaults.Web)
        {
            WriteIndented = true,
            Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
            NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
            UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        };
        options.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.CamelCase));
        return options.ConfigureForNodaTime(DateTimeZoneProviders.Tzdb);
    }
}
