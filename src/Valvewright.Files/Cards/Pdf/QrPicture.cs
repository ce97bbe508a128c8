using QRCoder;

namespace Valvewright.Files.Cards.Pdf;

/// <summary>A text as a QR code (ISO/IEC 18004), to be drawn as black rectangles.</summary>
internal sealed class QrPicture
{
    /// <summary>The white border that readers ask for, in modules.</summary>
    public const int Quiet = 4;

    /// <summary>The smallest module that is printed, points: 0.4 mm, which office printers and telephones' cameras hold (common practice).</summary>
    public const double SmallestModule = 0.4 / 25.4 * 72;

    private readonly bool[,] dark;

    /// <summary>Makes the code: the stronger its correction the better, as long as it stays small enough to print in large modules.</summary>
    public QrPicture(string text)
    {
        using QRCodeGenerator generator = new();
        using QRCodeData data = Smallest(generator, text);

        // The library's matrix carries the quiet zone already.
        int size = data.ModuleMatrix.Count - 2 * Quiet;
        dark = new bool[size, size];
        for (int row = 0; row < size; row++)
        {
            for (int column = 0; column < size; column++)
            {
                dark[row, column] = data.ModuleMatrix[row + Quiet][column + Quiet];
            }
        }
    }

    /// <summary>Modules along a side, without the border.</summary>
    public int Modules => dark.GetLength(0);

    /// <summary>Modules along a side, with the border.</summary>
    public int WithQuiet => Modules + 2 * Quiet;

    /// <summary>Whether a module is dark.</summary>
    public bool this[int row, int column] => dark[row, column];

    /// <summary>Level Q (a quarter may be lost) up to version 8, level M (15 percent) up to 14, else level L (7 percent).</summary>
    private static QRCodeData Smallest(QRCodeGenerator generator, string text)
    {
        foreach ((QRCodeGenerator.ECCLevel level, int largest) in new[] { (QRCodeGenerator.ECCLevel.Q, 8), (QRCodeGenerator.ECCLevel.M, 14) })
        {
            QRCodeData data = generator.CreateQrCode(text, level);
            if (data.Version <= largest)
            {
                return data;
            }

            data.Dispose();
        }

        return generator.CreateQrCode(text, QRCodeGenerator.ECCLevel.L);
    }

    /// <summary>Draws it with its border into a square.</summary>
    public void Draw(Sheet sheet, double x, double y, double side)
    {
        double module = side / WithQuiet;
        for (int row = 0; row < Modules; row++)
        {
            for (int column = 0; column < Modules;)
            {
                int end = column;
                while (end < Modules && dark[row, end])
                {
                    end++;
                }

                if (end > column)
                {
                    sheet.Black(x + (Quiet + column) * module, y + (Quiet + row) * module, (end - column) * module, module);
                }

                column = Math.Max(end, column) + 1;
            }
        }
    }
}
