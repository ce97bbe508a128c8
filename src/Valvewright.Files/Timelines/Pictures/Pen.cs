namespace Valvewright.Files.Timelines.Pictures;

/// <summary>How an area is filled, so that programs can be told apart in black print.</summary>
internal enum Texture
{
    Solid,
    Slanted,
    Dots,
    Level,
    Upright,
    Crossed,
    Open,
}

/// <summary>Where a text stands in relation to its point.</summary>
internal enum Side
{
    Left,
    Middle,
    Right,
}

/// <summary>Draws the few shapes that a timeline needs; units are 1/96 inch.</summary>
internal abstract class Pen
{
    /// <summary>The ink of page and card: 16.8 to 1 against white.</summary>
    public const string Ink = "#0f1f2a";

    /// <summary>Faint ink of grid lines.</summary>
    public const string Faint = "#bcc4c9";

    /// <summary>Areas behind other things.</summary>
    public const string Wash = "#dfe4e7";

    /// <summary>What fails: readable as text (8.7 to 1), and always with a pattern or a broken line of its own.</summary>
    public const string Alarm = "#990f06";

    /// <summary>Distance of the lines of a texture.</summary>
    protected const double Spacing = 4;

    /// <summary>Radius of a dot of <see cref="Texture.Dots"/>.</summary>
    protected const double DotRadius = 1.1;

    /// <summary>An area with a texture and an outline; the words are for those who point at it.</summary>
    public abstract void Area(double x, double y, double width, double height, Texture texture, string colour, string words);

    /// <summary>A plain area.</summary>
    public abstract void Wipe(double x, double y, double width, double height, string colour);

    /// <summary>A line.</summary>
    public abstract void Line(double x1, double y1, double x2, double y2, double width, string colour, bool dashed);

    /// <summary>A text on one line, cut to a width.</summary>
    public abstract void Text(double x, double y, double size, bool bold, Side side, string text, string colour);
}
