using Valvewright.Engine.Controllers;

namespace Valvewright.Tests.Twin;

/// <summary>What surrounds a controller at each second it counts.</summary>
public interface ITwinWorld
{
    /// <summary>The controller counts this second first.</summary>
    long Begins { get; }

    /// <summary>What the display shows.</summary>
    DateTime Display(long second);

    /// <summary>Whether the display has just jumped, and why; null where it ran on.</summary>
    ClockChangeCause? JumpedAt(long second);

    /// <summary>Whether a cause keeps programs from running.</summary>
    bool Holds(LostReason cause, long second);

    /// <summary>Seconds that a valve stays open which is open as power is lost at this second; null where it closes.</summary>
    long? HeldOpenFor(long second);

    /// <summary>What is keyed in.</summary>
    Settings Keyed(long second);

    /// <summary>Runs that somebody starts at this second.</summary>
    IEnumerable<HandRun> StartedByHand(long second);

    /// <summary>What the days-left counter of a program showed at first, if that is known.</summary>
    int? DaysLeftAtFirst(char program);

    /// <summary>No change of the surroundings lies between a second and this later one.</summary>
    long NextChange(long second);
}
