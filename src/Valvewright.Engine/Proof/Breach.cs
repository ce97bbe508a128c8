using NodaTime;

namespace Valvewright.Engine.Proof;

/// <summary>A rule that the plan breaks. Breaches of one kind by one station or program are told once, with their count.</summary>
/// <param name="Kind">Which rule.</param>
/// <param name="Where">Controller, program, station or supply, in words: <c>North, program A, station 3 (Lawn)</c>.</param>
/// <param name="What">What happens, with its figures.</param>
/// <param name="FirstAt">The first time, in the time people live by; null where it does not depend on the date.</param>
/// <param name="Count">How many times within the dates that were checked; 1 where it does not depend on the date.</param>
public sealed record Breach(BreachKind Kind, string Where, string What, LocalDateTime? FirstAt, int Count);

/// <summary>The rules that a plan must keep.</summary>
public enum BreachKind
{
    /// <summary>A setting that the controller can't hold.</summary>
    NotKeyable,

    /// <summary>A station with a run time but no zone, or no such station.</summary>
    StationWithoutZone,

    /// <summary>A controller of the survey without a plan, or a plan for a controller that is not in the survey.</summary>
    ControllerMissing,

    /// <summary>Water outside permitted hours or days.</summary>
    OutsidePermittedTimes,

    /// <summary>More flow than the supply gives.</summary>
    FlowOverSupply,

    /// <summary>A cycle longer than the ground takes without runoff, or begun before the last one had soaked in.</summary>
    RunsOff,

    /// <summary>More depth in one cycle than a rule lets fall.</summary>
    DepthPerCycle,

    /// <summary>More depth on one day than a rule lets fall.</summary>
    DepthPerDay,

    /// <summary>A start that falls due while another runs, and is dropped.</summary>
    StartLost,
}
