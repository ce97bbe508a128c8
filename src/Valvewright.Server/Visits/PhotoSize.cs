using System.Buffers.Binary;

namespace Valvewright.Server.Visits;

/// <summary>Width and height of a picture by its own header.</summary>
internal readonly record struct PhotoSize(int Width, int Height)
{
    /// <summary>More points a side no browser shows.</summary>
    public const int LargestSide = 16_384;

    /// <summary>Cameras of today take 200 million.</summary>
    public const long MostPoints = 210_000_000;

    /// <summary>Whether browsers show it.</summary>
    public bool IsShown => Width <= LargestSide && Height <= LargestSide && (long)Width * Height <= MostPoints;

    /// <summary>The size; null where the header does not say it (PNG: ISO/IEC 15948, 11.2.2; JPEG: ISO/IEC 10918-1, B.2.2; WebP: RFC 9649,
    /// 2.5 to 2.7).</summary>
    public static PhotoSize? Of(ReadOnlySpan<byte> bytes) => PhotoBytes.TypeOf(bytes) switch
    {
        "image/png" when bytes.Length >= 24 =>
            new PhotoSize(Clipped(BinaryPrimitives.ReadUInt32BigEndian(bytes[16..])),
            Clipped(BinaryPrimitives.ReadUInt32BigEndian(bytes[20..]))),
        "image/jpeg" => OfJpeg(bytes),
        "image/webp" => OfWebP(bytes),
        _ => null,
    };

    private static int Clipped(uint value) => (int)Math.Min(value, int.MaxValue);

    private static PhotoSize? OfJpeg(ReadOnlySpan<byte> bytes)
    {
        for (int at = 2; at + 9 < bytes.Length && bytes[at] == 0xFF;)
        {
            byte marker = bytes[at + 1];
            bool isFrame = marker is >= 0xC0 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC);
            if (isFrame)
            {
                return new PhotoSize(BinaryPrimitives.ReadUInt16BigEndian(bytes[(at + 7)..]),
                    BinaryPrimitives.ReadUInt16BigEndian(bytes[(at + 5)..]));
            }

            at += marker == 0xFF ? 1 : 2 + BinaryPrimitives.ReadUInt16BigEndian(bytes[(at + 2)..]);
        }

        return null;
    }

    private static PhotoSize? OfWebP(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length < 30)
        {
            return null;
        }

        ReadOnlySpan<byte> kind = bytes.Slice(12, 4);
        if (kind.SequenceEqual("VP8X"u8))
        {
            return new PhotoSize(1 + Three(bytes[24..]), 1 + Three(bytes[27..]));
        }

        if (kind.SequenceEqual("VP8L"u8))
        {
            uint packed = BinaryPrimitives.ReadUInt32LittleEndian(bytes[21..]);
            return new PhotoSize(1 + (int)(packed & 0x3FFF), 1 + (int)((packed >> 14) & 0x3FFF));
        }

        return kind.SequenceEqual("VP8 "u8)
            ? new PhotoSize(BinaryPrimitives.ReadUInt16LittleEndian(bytes[26..]) & 0x3FFF,
                BinaryPrimitives.ReadUInt16LittleEndian(bytes[28..]) & 0x3FFF)
            : null;
    }

    private static int Three(ReadOnlySpan<byte> bytes) => bytes[0] | (bytes[1] << 8) | (bytes[2] << 16);
}
