namespace Valvewright.Files.Cards;

/// <summary>Places in a QR code that look like its corners: dark and light in the proportion 1:1:3:1:1, across and down (ISO/IEC 18004,
/// 6.3.3).</summary>
internal static class FalseCorners
{
    /// <summary>Modules along the side of a true corner.</summary>
    private const int Corner = 7;

    /// <summary>How many there are besides the three true ones. The middle may be 2 to 4 modules wide, as readers allow for blur.</summary>
    public static int In(bool[,] dark)
    {
        int size = dark.GetLength(0);
        int found = 0;
        for (int row = 0; row < size; row++)
        {
            for (int column = 0; column < size; column++)
            {
                bool isCorner = (row < Corner && (column < Corner || column >= size - Corner)) || (row >= size - Corner && column < Corner);
                if (!isCorner && LooksLikeOne(dark, row, column, 0, 1) && LooksLikeOne(dark, row, column, 1, 0))
                {
                    found++;
                }
            }
        }

        return found;
    }

    private static bool LooksLikeOne(bool[,] dark, int row, int column, int down, int across)
    {
        if (!dark[row, column])
        {
            return false;
        }

        int before = Run(dark, row, column, -down, -across, true);
        int after = Run(dark, row, column, down, across, true);
        return before + after - 1 is >= 2 and <= 4
            && Ends(dark, row - down * before, column - across * before, -down, -across)
            && Ends(dark, row + down * after, column + across * after, down, across);
    }

    /// <summary>One light module and then one dark one.</summary>
    private static bool Ends(bool[,] dark, int row, int column, int down, int across) =>
        Run(dark, row, column, down, across, false) == 1 && Run(dark, row + down, column + across, down, across, true) == 1;

    private static int Run(bool[,] dark, int row, int column, int down, int across, bool wanted)
    {
        int length = 0;
        while (row >= 0 && column >= 0 && row < dark.GetLength(0) && column < dark.GetLength(1) && dark[row, column] == wanted)
        {
            (row, column, length) = (row + down, column + across, length + 1);
        }

        return length;
    }
}
