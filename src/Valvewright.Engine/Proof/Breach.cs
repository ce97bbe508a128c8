using System.Globalization;
using System.Text.Json.Serialization;
using NodaTime;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Proof;

/// <summary>A rule that the plan breaks. Breaches of one kind by one station or program are told once, with their count.</summary>
/// <param name="Kind">Which rule.</param>
/// <param name="Where">Controller, program, station or supply, in words: <c>North, program A, station 3 (Lawn)</c>.</param>
/// <param name="What">What happens, without the figures of <paramref name="Worst"/>.</param>
/// <param name="Worst">The worst of them, where it can be measured.</param>
/// <param name="FirstAt">The first time, in local time; null where it does not depend on the date.</param>
/// <param name="Count">How many times within the dates that were checked; 1 where it does not depend on the date.</param>
public sealed record Breach(BreachKind Kind, string Where, Sentence What, BreachFigure? Worst, LocalDateTime? FirstAt, int Count)
{
    /// <summary>What happens, with its places; proofs that were kept before sentences had any lack it.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public SentenceParts? Said
    {
        get => SentenceParts.Of(What);
        init => What = value?.ToSentence() ?? What;
    }

    /// <summary>In one sentence, SI units.</summary>
    public override string ToString() => $"{Where}: {What}{(Worst is null ? "" : $": {Worst}")}{(Count > 1 ? $" ({Count} times)" : "")}.";
}

/// <summary>How far a rule is broken.</summary>
/// <param name="Measure">Of what.</param>
/// <param name="Found">What the plan comes to, in the unit of the measure.</param>
/// <param name="Allowed">What the rule lets it come to, 0 where nothing.</param>
public sealed record BreachFigure(BreachMeasure Measure, double Found, double Allowed)
{
    /// <inheritdoc/>
    public override string ToString()
    {
        string unit = Measure switch { BreachMeasure.DepthMm => "mm", BreachMeasure.FlowLpm => "L/min", BreachMeasure.VolumeL =>
            "L", BreachMeasure.StartsPerHour => "starts", _ => "s" };
        string allowed = Allowed > 0 ? string.Create(CultureInfo.InvariantCulture, $", {Allowed:0.##} {unit} allowed") : "";
        return string.Create(CultureInfo.InvariantCulture, $"{Found:0.##} {unit}{allowed}");
    }
}

/// <summary>What a breach is measured in.</summary>
public enum BreachMeasure
{
    /// <summary>Depth of water, mm.</summary>
    DepthMm,

    /// <summary>Flow, L/min.</summary>
    FlowLpm,

    /// <summary>Time, s.</summary>
    Seconds,

    /// <summary>Volume of water, L.</summary>
    VolumeL,

    /// <summary>Starts of a pump within 60 minutes.</summary>
    StartsPerHour,
}

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

    /// <summary>More water wanted than the supply's tank holds and its refill brings.</summary>
    TankRunsShort,

    /// <summary>More starts of the supply's pump within an hour than it bears.</summary>
    PumpStartsTooOften,
}
