using System.Globalization;
using System.Text.RegularExpressions;
using ZXing;
using ZXing.QrCode;

namespace Valvewright.Page.Tests.Hosting;

/// <summary>A QR code that stands on a page as a path of bars one module high, read as in a picture.</summary>
internal static partial class CodeOnScreen
{
    private const int PixelsPerModule = 6;

    public static string Read(string path)
    {
        (int X, int Y, int Width)[] bars = [.. Bar().Matches(path).Select(m => (Number(m, "x"), Number(m, "y"), Number(m, "w")))];
        int side = (bars.Max(b => Math.Max(b.X + b.Width, b.Y)) + 6) * PixelsPerModule;
        byte[] gray = new byte[side * side];
        Array.Fill(gray, (byte)255);
        foreach ((int x, int y, int width) in bars)
        {
            for (int row = y * PixelsPerModule; row < (y + 1) * PixelsPerModule; row++)
            {
                Array.Fill(gray, (byte)0, row * side + x * PixelsPerModule, width * PixelsPerModule);
            }
        }

        RGBLuminanceSource source = new(gray, side, side, RGBLuminanceSource.BitmapFormat.Gray8);
        return new QRCodeReader().decode(new BinaryBitmap(new ZXing.Common.GlobalHistogramBinarizer(source)))?.Text ?? "no code found";
    }

    private static int Number(Match match, string name) => int.Parse(match.Groups[name].Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"M(?<x>\d+) (?<y>\d+)h(?<w>\d+)v1")]
    private static partial Regex Bar();
}
