namespace Valvewright.App.Parts;

/// <summary>A picture of numbers: what <c>js/drawing.js</c> draws, and the table that says the same.</summary>
/// <param name="Title">What it shows.</param>
/// <param name="Says">What can be seen in it, in a sentence, for those who can't see it.</param>
/// <param name="XLabel">Name of the axis across.</param>
/// <param name="YLabel">Name of the axis up, with its unit.</param>
/// <param name="Layers">What is drawn, the lowest first.</param>
/// <param name="Table">The same as a table.</param>
public sealed record Chart(string Title, string Says, string XLabel, string YLabel, ListOf<Layer> Layers, ChartTable Table)
{
    /// <summary>What the values across are.</summary>
    public Across Across { get; init; } = Across.Number;

    /// <summary>Height over width.</summary>
    public double Shape { get; init; } = 0.45;

    /// <summary>Names of months, where <see cref="Across"/> is dates.</summary>
    public ListOf<string> Months { get; init; } = [];

    /// <summary>Names up the axis from the top, where rows are lanes; empty where the axis up is of numbers.</summary>
    public ListOf<string> Lanes { get; init; } = [];
}

/// <summary>What the values across a chart are.</summary>
public enum Across
{
    /// <summary>Numbers.</summary>
    Number,

    /// <summary>Days since 1970-01-01.</summary>
    Date,

    /// <summary>Hours of a day, 0 to 24.</summary>
    Hour,
}

/// <summary>One thing drawn in a chart.</summary>
/// <param name="Kind">How.</param>
/// <param name="Name">Its name, written beside it.</param>
/// <param name="Series">Which colour and pattern, 1 to 5; 0 is the band's.</param>
/// <param name="X">Values across; of bars and spans, where each begins.</param>
/// <param name="Y">Values up, or numbers of lanes from 0; of a rule the level, once.</param>
public sealed record Layer(LayerKind Kind, string Name, int Series, ListOf<double> X, ListOf<double> Y)
{
    /// <summary>Where bars and spans end; empty elsewhere.</summary>
    public ListOf<double> X2 { get; init; } = [];

    /// <summary>Upper values of a band; empty elsewhere.</summary>
    public ListOf<double> Y2 { get; init; } = [];

    /// <summary>Text at each point, or empty.</summary>
    public ListOf<string> Texts { get; init; } = [];
}

/// <summary>How something is drawn in a chart.</summary>
public enum LayerKind
{
    /// <summary>A line through the points.</summary>
    Line,

    /// <summary>A line that keeps its value until the next point.</summary>
    Steps,

    /// <summary>Upright bars from 0.</summary>
    Bars,

    /// <summary>A shaded area between two values.</summary>
    Band,

    /// <summary>Points.</summary>
    Dots,

    /// <summary>A level across the whole picture.</summary>
    Rule,

    /// <summary>Blocks in lanes, from one value across to another.</summary>
    Spans,

    /// <summary>Words at points.</summary>
    Words,
}

/// <summary>The numbers of a chart as a table, as they are shown.</summary>
/// <param name="Heads">Heads of its columns, with units.</param>
/// <param name="Rows">Its rows; the first cell is the row's head.</param>
public sealed record ChartTable(ListOf<string> Heads, ListOf<ListOf<string>> Rows);
