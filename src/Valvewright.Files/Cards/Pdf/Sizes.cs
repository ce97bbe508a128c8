namespace Valvewright.Files.Cards.Pdf;

/// <summary>The sizes of type and boxes of one card, all from one scale; each with a least size below which it is not printed.</summary>
/// <param name="scale">1 is the design size.</param>
internal sealed class Sizes(double scale)
{
    /// <summary>The least size of anything that is set, points: common practice for reading at arm's length is 11 or more.</summary>
    public const double LeastSetting = 11;

    /// <summary>The least size of anything at all, points.</summary>
    public const double LeastNote = 8;

    /// <summary>The scales to try, the largest first.</summary>
    public static IEnumerable<double> Ladder => Enumerable.Range(0, 27).Select(i => 1.5 - 0.03 * i);

    /// <summary>The controller's name.</summary>
    public Type Title => new(Math.Clamp(25 * scale, 18, 32), true);

    /// <summary>A setting to set.</summary>
    public Type Setting => new(Math.Max(LeastSetting, 14 * scale), true);

    /// <summary>A setting that empties something: 0, clear.</summary>
    public Type Empty => Setting with { Bold = false };

    /// <summary>What to do in a step.</summary>
    public Type Step => new(Math.Clamp(12.5 * scale, 9.5, 15));

    /// <summary>The names of rows.</summary>
    public Type Label => new(Math.Clamp(12.5 * scale, 9.5, 17));

    /// <summary>Sums and dates to compare.</summary>
    public Type Total => new(Math.Clamp(11 * scale, 9, 14));

    /// <summary>Small print.</summary>
    public Type Note => new(Math.Clamp(9.5 * scale, LeastNote, 11));

    /// <summary>Whether settings are in their least size, so that space is short.</summary>
    public bool Dense => Setting.Size <= LeastSetting;

    /// <summary>Height of a row of settings.</summary>
    public double Row => Setting.Size * 1.3;

    /// <summary>Height of a row of sums.</summary>
    public double TotalRow => Total.Size * 1.34;

    /// <summary>Space inside cells.</summary>
    public double Pad => Math.Max(4, 5 * scale);

    /// <summary>Space between parts.</summary>
    public double Gap => Math.Clamp(7 * scale, 4, 10);

    /// <summary>Diameter of the discs with step numbers, and the side of tick boxes.</summary>
    public double Mark => Math.Clamp(19 * scale, 15, 24);
}
