using System.Text.Json;
using System.Text.Json.Serialization;

namespace Valvewright.App.Shelf;

/// <summary>Reads and writes enums as the engine does, as words in camel case; the usual converter looks at every member by reflection
/// first, which a phone feels.</summary>
internal sealed class EnumWordsFactory : JsonConverterFactory
{
    /// <inheritdoc/>
    public override bool CanConvert(Type typeToConvert) => typeToConvert.IsEnum;

    /// <inheritdoc/>
    public override JsonConverter CreateConverter(Type typeToConvert, JsonSerializerOptions options) =>
        (JsonConverter)Activator.CreateInstance(typeof(EnumWords<>).MakeGenericType(typeToConvert))!;
}

/// <summary>Reads and writes one enum.</summary>
internal sealed class EnumWords<T> : JsonConverter<T>
    where T : struct, Enum
{
    /// <inheritdoc/>
    public override T Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        reader.TokenType == JsonTokenType.String ? Parse(reader.GetString()) : throw new JsonException();

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options)
    {
        writer.WriteStringValue(Word(value));
    }

    /// <inheritdoc/>
    public override T ReadAsPropertyName(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        Parse(reader.GetString());

    /// <inheritdoc/>
    public override void WriteAsPropertyName(Utf8JsonWriter writer, T value, JsonSerializerOptions options)
    {
        writer.WritePropertyName(Word(value));
    }

    private static string Word(T value) => JsonNamingPolicy.CamelCase.ConvertName(value.ToString());

    private static T Parse(string? word) => Enum.TryParse(typeof(T), word, ignoreCase: true, out object? value) ? (T)value!
        : throw new JsonException();
}
