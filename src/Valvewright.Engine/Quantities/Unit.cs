using Valvewright.Engine.Values;

namespace Valvewright.Engine.Quantities;

/// <summary>What a quantity measures; each has one unit that the engine keeps it in.</summary>
public enum Dimension
{
    /// <summary>Kept in metres.</summary>
    Length,

    /// <summary>Kept in square metres.</summary>
    Area,

    /// <summary>Kept in litres.</summary>
    Volume,

    /// <summary>Kept in litres per minute.</summary>
    Flow,

    /// <summary>Kept in kilopascals.</summary>
    Pressure,

    /// <summary>Depth of water in time, kept in millimetres per hour.</summary>
    Rate,

    /// <summary>Wind speed, kept in metres per second.</summary>
    Speed,

    /// <summary>Kept in seconds.</summary>
    Duration,

    /// <summary>Kept in percent.</summary>
    Share,
}

/// <summary>A unit that a person may write.</summary>
/// <param name="Symbol">How it is printed.</param>
/// <param name="Dimension">What it measures.</param>
/// <param name="Factor">One of it in the unit that the engine keeps the dimension in.</param>
/// <param name="Spellings">How it may be written, in lower case without full stops; the symbol is one of them.</param>
public sealed record Unit(string Symbol, Dimension Dimension, double Factor, ListOf<string> Spellings);
