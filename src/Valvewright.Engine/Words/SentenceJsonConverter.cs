using System.Text.Json;
using System.Text.Json.Serialization;

namespace Valvewright.Engine.Words;

/// <summary>A sentence as JSON: its English text.</summary>
public sealed class SentenceJsonConverter : JsonConverter<Sentence>
{
    /// <inheritdoc/>
    public override Sentence? Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        reader.GetString() is { } text ? (Sentence)text : null;

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, Sentence value, JsonSerializerOptions options)
    {
        ArgumentNullException.ThrowIfNull(writer);
        ArgumentNullException.ThrowIfNull(value);
        writer.WriteStringValue(value.Text);
    }
}
