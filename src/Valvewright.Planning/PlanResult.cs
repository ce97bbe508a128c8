using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Planning;

/// <summary>What planning came to: a plan with its report, or what is in the way.</summary>
/// <param name="Plan">The plan; null when none exists or none was found.</param>
/// <param name="Report">How good it is and how far that is proven.</param>
/// <param name="Obstacles">What is in the way, each with changes that would free it; empty when there is a plan.</param>
public sealed record PlanResult(Plan? Plan, PlanReport Report, ListOf<Obstacle> Obstacles);

/// <summary>How a plan was found and what it was measured by.</summary>
/// <param name="Status">Whether it is proven.</param>
/// <param name="Levels">The aims in their order: use that must be met, water with what it is weighed against, settings, overhead water in
/// the early hours.</param>
/// <param name="Zones">What was chosen for each zone.</param>
/// <param name="EffortSeconds">Solver work in deterministic seconds: the same on every run and machine.</param>
/// <param name="Programs">Programs tried before their hours could be found; 1 when the first fitted.</param>
public sealed record PlanReport(PlanStatus Status, ListOf<AimReached> Levels, ListOf<ZoneChosen> Zones, double EffortSeconds, int Programs)
{
    /// <summary>The largest gap of any level, 0 to 1.</summary>
    public double Gap => Levels.Count == 0 ? 0 : Levels.Max(l => l.Gap);
}

/// <summary>How far a result is proven.</summary>
public enum PlanStatus
{
    /// <summary>No better plan exists, within the stated tolerance.</summary>
    Proven,

    /// <summary>The plan holds every rule; a better one may exist, by no more than the gaps.</summary>
    WithinGap,

    /// <summary>Proven that no plan exists.</summary>
    Impossible,

    /// <summary>Neither a plan nor a proof that none exists was found with the effort allowed.</summary>
    NotFound,
}

/// <summary>One aim: what was reached and what cannot be bettered.</summary>
/// <param name="Aim">Which.</param>
/// <param name="Unit">Of the values.</param>
/// <param name="Value">What the plan reaches.</param>
/// <param name="Bound">No plan can reach less, given the levels before.</param>
public sealed record AimReached(string Aim, string Unit, double Value, double Bound)
{
    /// <summary>How much of the value might be saved at most, 0 to 1.</summary>
    public double Gap => Value <= Bound || Value <= 0 ? 0 : (Value - Bound) / Value;
}

/// <summary>What was chosen for a zone.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="Station">Its station.</param>
/// <param name="Zone">The zone.</param>
/// <param name="Program">The program it is in.</param>
/// <param name="RunSeconds">Run time of each cycle.</param>
/// <param name="Cycles">Cycles a watering day.</param>
/// <param name="UseMet">The part of its low quarter's use that is met in a mean training year, with a percent set to suit every
/// month.</param>
/// <param name="LitresPerYear">Water in such a year.</param>
/// <param name="LeastLitresPerYear">The least water of all its choices that meet the need as well.</param>
public sealed record ZoneChosen(
    string Controller, int Station, string Zone, char Program, int RunSeconds, int Cycles, double UseMet, double LitresPerYear,
        double LeastLitresPerYear);

/// <summary>Something that stands in the way of any plan.</summary>
/// <param name="Where">Supply, controller or zone, in the survey's words.</param>
/// <param name="What">One sentence in the person's terms.</param>
/// <param name="Advice">Changes that would free it, smallest first, each verified by planning again with it.</param>
public sealed record Obstacle(string Where, Sentence What, ListOf<SiteChange> Advice);

/// <summary>How far planning has come.</summary>
/// <param name="Supply">The supply being planned.</param>
/// <param name="Step">What is being done.</param>
/// <param name="Done">How much is done, 0 to 1; it never falls.</param>
public sealed record PlanProgress(string Supply, string Step, double Done);

/// <summary>The progress of one planning as a part of something larger.</summary>
internal sealed class PartOfProgress(IProgress<PlanProgress>? whole, double from, double to) : IProgress<PlanProgress>
{
    public void Report(PlanProgress value) => whole?.Report(value with { Done = from + ((to - from) * value.Done) });
}
