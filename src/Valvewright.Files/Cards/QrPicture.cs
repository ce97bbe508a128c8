using System.Globalization;
using System.Text;
using QRCoder;

namespace Valvewright.Files.Cards;

/// <summary>A text as a QR code (ISO/IEC 18004), to be drawn as black rectangles.</summary>
public sealed class QrPicture
{
    /// <summary>The white border that readers ask for, in modules.</summary>
    public const int Quiet = 4;

    /// <summary>The smallest module that is printed, points: 0.4 mm, which office printers and telephones' cameras hold (common
    /// practice).</summary>
    public const double SmallestModule = 0.4 / 25.4 * 72;

    /// <summary>Level Q (a quarter may be lost) up to version 8, level M (15 percent) up to 14, else level L (7 percent): strong, as long
    /// as it stays small.</summary>
    private static readonly (QRCodeGenerator.ECCLevel Level, int LargestVersion)[] Levels =
        [(QRCodeGenerator.ECCLevel.Q, 8), (QRCodeGenerator.ECCLevel.M, 14), (QRCodeGenerator.ECCLevel.L, 40)];

    private readonly bool[,] dark;

    private QrPicture(bool[,] dark) => this.dark = dark;

    /// <summary>
    /// Makes the code of the first of some texts that mean the same whose picture has nothing in it that looks like one of its
    /// three corners; readers that meet one may look in the wrong place. Where all have, the one with the fewest.
    /// </summary>
    public static QrPicture Of(IReadOnlyCollection<string> texts)
    {
        using QRCodeGenerator generator = new();
        QrPicture? best = null;
        int fewest = int.MaxValue;
        foreach ((QRCodeGenerator.ECCLevel level, int largest) in Levels)
        {
            foreach (string text in texts)
            {
                using QRCodeData data = generator.CreateQrCode(text, level);
                QrPicture picture = new(MatrixOf(data));
                int corners = data.Version <= largest ? FalseCorners.In(picture.dark) : int.MaxValue;
                (best, fewest) = corners < fewest ? (picture, corners) : (best, fewest);
                if (fewest == 0 || data.Version > largest)
                {
                    break;
                }
            }

            if (fewest == 0)
            {
                break;
            }
        }

        return best ?? throw new ArgumentException("There is no text.", nameof(texts));
    }

    /// <summary>Modules along a side, without the border.</summary>
    public int Modules => dark.GetLength(0);

    /// <summary>Modules along a side, with the border.</summary>
    public int WithQuiet => Modules + 2 * Quiet;

    /// <summary>Whether a module is dark.</summary>
    public bool this[int row, int column] => dark[row, column];

    /// <summary>The code as lines of block signs for a screen, two rows of modules a line: light where it is dark on paper, as screens of
    /// text are.</summary>
    public string Text()
    {
        bool IsLight(int row, int column) => row < 0 || column < 0 || row >= Modules || column >= Modules || !dark[row, column];
        StringBuilder text = new();
        for (int row = -2; row < Modules + 2; row += 2)
        {
            for (int column = -2; column < Modules + 2; column++)
            {
                text.Append((IsLight(row, column), IsLight(row + 1, column)) switch
                    { (true, true) => '█', (true, false) => '▀', (false, true) => '▄', _ => ' ' });
            }

            text.Append('\n');
        }

        return text.ToString();
    }

    /// <summary>Its dark modules as rectangles one module high, the longest there are: row, first column, width.</summary>
    public IEnumerable<(int Row, int Column, int Width)> Bars()
    {
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
                    yield return (row, column, end - column);
                }

                column = Math.Max(end, column) + 1;
            }
        }
    }

    /// <summary>Its dark modules as the path of an SVG in which a module is one unit and the border counts.</summary>
    public string SvgPath()
    {
        StringBuilder path = new();
        foreach ((int row, int column, int width) in Bars())
        {
            path.Append(CultureInfo.InvariantCulture, $"M{column + Quiet} {row + Quiet}h{width}v1h-{width}z");
        }

        return path.ToString();
    }

    private static bool[,] MatrixOf(QRCodeData data)
    {
        // The library's matrix carries the quiet zone already.
        int size = data.ModuleMatrix.Count - 2 * Quiet;
        bool[,] dark = new bool[size, size];
        for (int row = 0; row < size; row++)
        {
            for (int column = 0; column < size; column++)
            {
                dark[row, column] = data.ModuleMatrix[row + Quiet][column + Quiet];
            }
        }

        return dark;
    }
}
