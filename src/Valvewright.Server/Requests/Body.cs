using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.Net.Http.Headers;
using Valvewright.Server.Problems;

namespace Valvewright.Server.Requests;

/// <summary>Reads what was sent: of a known type, of a bounded size, whole.</summary>
internal static class Body
{
    /// <summary>Most bytes of a record sent as JSON.</summary>
    public const int LargestJsonBytes = 256 * 1024;

    private const int Deepest = 24;

    private static readonly JsonSerializerOptions Strict = new(Engine.Values.Json.Options)
    {
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
        AllowDuplicateProperties = false,
        NumberHandling = JsonNumberHandling.Strict,
        MaxDepth = Deepest,
    };

    private static readonly UTF8Encoding Utf8 = new(false, true);

    /// <summary>A value as JSON; no member may be unknown, missing or there twice.</summary>
    public static async Task<T> Json<T>(HttpContext http, int most = LargestJsonBytes)
    {
        byte[] bytes = await Bytes(http, most, "application/json");
        try
        {
            return JsonSerializer.Deserialize<T>(bytes, Strict) ?? throw Refusal
                .Wrong("the body", "null", "a JSON object", "There is nothing in it.");
        }
        catch (JsonException wrong)
        {
            Sentence where = wrong.LineNumber is { } line ? (Sentence)$"line {line + 1}, byte {wrong.BytePositionInLine + 1}" : "the body";
            throw Refusal.Garbled(string.IsNullOrEmpty(wrong.Path) ? where : (Sentence)$"{wrong.Path}, {where}",
                wrong.Message.Split(" Path: ")[0], "JSON as the API's description says", "What was sent is not what this address takes.");
        }
        catch (Exception wrong) when (
            wrong
                is NodaTime.Text.UnparsableValueException or ArgumentException or NotSupportedException or InvalidOperationException or FormatException)
        {
            throw Refusal.Garbled(
                "the body", wrong.Message, "JSON as the API's description says", "What was sent is not what this address takes.");
        }
    }

    /// <summary>Text in UTF-8 without NUL characters.</summary>
    public static async Task<string> Text(HttpContext http, int most, params string[] types)
    {
        return Text(await Bytes(http, most, types));
    }

    /// <summary>Bytes as text in UTF-8 without NUL characters.</summary>
    public static string Text(byte[] bytes)
    {
        try
        {
            string text = Utf8.GetString(bytes.AsSpan().StartsWith(Encoding.UTF8.Preamble) ? bytes.AsSpan(3) : bytes);
            return text.Contains('\0', StringComparison.Ordinal)
                ? throw Refusal.Wrong("the body", "a NUL character", "text", "This is not text.") : text;
        }
        catch (DecoderFallbackException wrong)
        {
            throw Refusal.Wrong($"byte {wrong.Index + 1}", "bytes that are not UTF-8", "text in UTF-8", "This is not text in UTF-8.");
        }
    }

    /// <summary>Bytes of one of some media types.</summary>
    public static async Task<byte[]> Bytes(HttpContext http, int most, params string[] types)
    {
        RequireType(http.Request, types);
        if (http.Request.ContentLength > most)
        {
            throw TooLarge(most);
        }

        using MemoryStream whole = new();
        byte[] buffer = new byte[64 * 1024];
        for (int read; (read = await http.Request.Body.ReadAsync(buffer, http.RequestAborted)) > 0;)
        {
            if (whole.Length + read > most)
            {
                throw TooLarge(most);
            }

            whole.Write(buffer, 0, read);
        }

        return whole.Length > 0 ? whole.ToArray() : throw Refusal.Wrong("the body", "nothing", Shown.OneOf(types), "Nothing was sent.");
    }

    /// <summary>The media type that was sent, in lower case.</summary>
    public static string TypeOf(HttpRequest request) =>
        MediaTypeHeaderValue.TryParse(request.ContentType, out MediaTypeHeaderValue? type) ? type.MediaType.ToString()
            .ToLowerInvariant() : "";

    private static void RequireType(HttpRequest request, string[] types)
    {
        if (!types.Contains(TypeOf(request)) || request.Headers.ContentEncoding.Count > 0)
        {
            throw new Refusal(StatusCodes.Status415UnsupportedMediaType, "wrong-type", "This address does not take that type of content.")
                .Found($"{$"{request.ContentType} {request.Headers.ContentEncoding}".Trim()}").Expecting(Shown.OneOf(types));
        }

        if (MediaTypeHeaderValue.TryParse(request.ContentType, out MediaTypeHeaderValue? given) && given.Charset.HasValue
            && !given.Charset.Equals("utf-8", StringComparison.OrdinalIgnoreCase))
        {
            throw new Refusal(StatusCodes.Status415UnsupportedMediaType, "wrong-type", "Text has to come in UTF-8.")
                .Found($"{given.Charset.Value}");
        }
    }

    private static Refusal TooLarge(int most) =>
        new Refusal(StatusCodes.Status413PayloadTooLarge, "too-large", "What was sent is too large.").Expecting($"at most {most} bytes");
}
