using System.Security.Cryptography;

namespace Valvewright.Records;

/// <summary>Ids of records. Anyone who makes a record makes its id, so that what is recorded without a signal and sent twice counts
/// once.</summary>
public static class Ids
{
    /// <summary>A new id: UUID version 7 (RFC 9562, 5.7), which sorts by the time it was made.</summary>
    public static Guid New() => Guid.CreateVersion7();

    /// <summary>Reads an id as RFC 9562 writes it: 32 hexadecimal digits with hyphens, version 7.</summary>
    public static bool TryRead(string? text, out Guid id) =>
        Guid.TryParseExact(text, "D", out id) && id.Version == 7 && id.Variant is >= 8 and <= 11;

    /// <summary>The id of a site's only weather record: UUID version 8, made of the site's.</summary>
    public static Guid WeatherOf(Guid site)
    {
        Span<byte> text = stackalloc byte[23];
        "weather"u8.CopyTo(text);
        site.TryWriteBytes(text[7..], bigEndian: true, out _);
        Span<byte> id = SHA256.HashData(text).AsSpan(0, 16);
        id[6] = (byte)((id[6] & 0x0F) | 0x80);
        id[8] = (byte)((id[8] & 0x3F) | 0x80);
        return new Guid(id, bigEndian: true);
    }
}
