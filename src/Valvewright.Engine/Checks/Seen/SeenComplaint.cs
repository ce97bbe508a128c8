namespace Valvewright.Engine.Checks.Seen;

/// <summary>What an owner sees that no setting explains: valve, wire, pipe, sensor or display. It leads to fault finding.</summary>
public enum Complaint
{
    /// <summary>A station does not shut off.</summary>
    WontStop,

    /// <summary>It waters while it rains.</summary>
    WatersInRain,

    /// <summary>Water stands or runs off.</summary>
    Puddles,

    /// <summary>Little pressure.</summary>
    LowPressure,

    /// <summary>Water comes out where it should not.</summary>
    Leak,

    /// <summary>Two stations are open at once.</summary>
    TwoAtOnce,

    /// <summary>The display shows nothing, or does not answer.</summary>
    DisplayDead,
}

/// <summary>A complaint and the station it is about.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Station">The station; 0 where none was named.</param>
public sealed record SeenComplaint(Complaint Kind, int Station);
