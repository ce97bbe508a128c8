using Valvewright.Server.Visits;

namespace Valvewright.Server.Tests;

/// <summary>The size of a picture by its header, as the standards have it.</summary>
public sealed class PhotoSizeTests
{
    [Theory]
    [InlineData(4000, 3000, true)]
    [InlineData(30_000, 30_000, false)]
    [InlineData(16_000, 16_000, false)]
    public void A_PNG_says_its_size_in_its_first_chunk(int width, int height, bool isShown)
    {
        byte[] png = [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A, 0, 0, 0, 13, (byte)'I', (byte)'H', (byte)'D', (byte)'R',
            .. BigEndian(width), .. BigEndian(height), 8, 2, 0, 0, 0];
        Assert.Equal(new PhotoSize(width, height), PhotoSize.Of(png));
        Assert.Equal(isShown, PhotoSize.Of(png)!.Value.IsShown);
    }

    [Fact]
    public void A_JPEG_says_it_in_its_frame_after_other_segments()
    {
        byte[] jpeg = [0xFF, 0xD8, 0xFF, 0xE0, 0, 4, 1, 2, 0xFF, 0xC0, 0, 17, 8, 0x0B, 0xB8, 0x0F, 0xA0, 3, 0, 0, 0];
        Assert.Equal(new PhotoSize(4000, 3000), PhotoSize.Of(jpeg));
    }

    [Fact]
    public void A_WebP_says_it_in_its_extended_header()
    {
        byte[] webp = [.. "RIFF"u8, 0, 0, 0, 0, .. "WEBPVP8X"u8, 10, 0, 0, 0, 0, 0, 0, 0, 0x9F, 0x0F, 0, 0xB7, 0x0B, 0];
        Assert.Equal(new PhotoSize(4000, 3000), PhotoSize.Of(webp));
    }

    private static byte[] BigEndian(int value) => [(byte)(value >> 24), (byte)(value >> 16), (byte)(value >> 8), (byte)value];
}
