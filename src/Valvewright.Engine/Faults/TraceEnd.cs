using Valvewright.Engine.Values;

namespace Valvewright.Engine.Faults;

/// <summary>How sure a trace ended.</summary>
public enum EndKind
{
    /// <summary>A cause is as probable as the model asks for.</summary>
    Sure,

    /// <summary>No step is left that tells more, and a cause is likelier than not.</summary>
    Likely,

    /// <summary>No step is left that tells more, and no cause is likelier than not.</summary>
    NotFound,
}

/// <summary>The end of a trace.</summary>
/// <param name="Kind">How sure.</param>
/// <param name="Causes">The causes found, the most probable first; none where nothing was found.</param>
/// <param name="RuledOut">Causes that the complaint allows and the answers rule out, the commonest first.</param>
public sealed record TraceEnd(EndKind Kind, ListOf<string> Causes, ListOf<string> RuledOut)
{
    /// <summary>A cause as probable as this is named.</summary>
    internal const double Likely = 0.5;
}
