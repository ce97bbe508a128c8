using System.Text;
using System.Text.Json;

namespace Valvewright.Files.Weather.Text;

/// <summary>
/// JSON as read, each value with the place where it starts, so that a wrong one can be pointed at. Members keep their order, and a
/// name that stands twice is there twice.
/// </summary>
internal sealed class JsonTree
{
    private readonly List<(string? Name, JsonTree Value)> items = [];

    private JsonTree(JsonTokenType kind, int offset)
    {
        Kind = kind;
        Offset = offset;
    }

    /// <summary>StartObject, StartArray, String, Number, True, False or Null.</summary>
    public JsonTokenType Kind { get; }

    /// <summary>Byte of the UTF-8 text where the value starts.</summary>
    public int Offset { get; }

    /// <summary>Text of a string; of a number as written.</summary>
    public string Text { get; private set; } = "";

    /// <summary>Value of a number; NaN for what is none.</summary>
    public double Number { get; private set; } = double.NaN;

    /// <summary>Members of an object or items of an array.</summary>
    public IReadOnlyList<(string? Name, JsonTree Value)> Items => items;

    /// <summary>Whether this is an object.</summary>
    public bool IsObject => Kind == JsonTokenType.StartObject;

    /// <summary>Whether this is an array.</summary>
    public bool IsArray => Kind == JsonTokenType.StartArray;

    /// <summary>The member of that name, or null.</summary>
    public JsonTree? this[string name]
    {
        get
        {
            foreach ((string? key, JsonTree value) in items)
            {
                if (key == name)
                {
                    return value;
                }
            }

            return null;
        }
    }

    /// <summary>Reads a whole JSON text.</summary>
    /// <exception cref="JsonException">It is not JSON, or ends early.</exception>
    public static JsonTree Parse(ReadOnlySpan<byte> utf8)
    {
        Utf8JsonReader reader = new(utf8, new JsonReaderOptions { MaxDepth = 32 });
        reader.Read();
        JsonTree root = Value(ref reader);
        reader.Read();
        return root;
    }

    /// <summary>Line and column, from 1, of a byte of the text.</summary>
    public static (int Line, int Column) PlaceOf(ReadOnlySpan<byte> utf8, int offset)
    {
        ReadOnlySpan<byte> before = utf8[..Math.Min(offset, utf8.Length)];
        int lineStart = before.LastIndexOf((byte)'\n') + 1;
        return (before.Count((byte)'\n') + 1, Encoding.UTF8.GetCharCount(before[lineStart..]) + 1);
    }

    private static JsonTree Value(ref Utf8JsonReader reader)
    {
        JsonTree value = new(reader.TokenType, (int)reader.TokenStartIndex);
        switch (reader.TokenType)
        {
            case JsonTokenType.StartObject:
                while (reader.Read() && reader.TokenType != JsonTokenType.EndObject)
                {
                    string name = TextOf(ref reader);
                    reader.Read();
                    value.items.Add((name, Value(ref reader)));
                }

                break;
            case JsonTokenType.StartArray:
                while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
                {
                    value.items.Add((null, Value(ref reader)));
                }

                break;
            case JsonTokenType.String:
                value.Text = TextOf(ref reader);
                break;
            case JsonTokenType.Number:
                value.Text = Encoding.UTF8.GetString(reader.ValueSpan);
                value.Number = reader.TryGetDouble(out double number) && double.IsFinite(number) ? number : double.NaN;
                break;
        }

        return value;
    }

    /// <summary>A string; escapes that are no character (a lone surrogate) are an error of the JSON like any other.</summary>
    private static string TextOf(ref Utf8JsonReader reader)
    {
        try
        {
            return reader.GetString() ?? "";
        }
        catch (InvalidOperationException e)
        {
            throw new JsonException("a text holds an escape that is no character", null, null, null, e);
        }
    }
}
