using System.Text.Json.Serialization;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Words;

namespace Valvewright.Records.Jobs;

/// <summary>What planning came to; a plan that was found is in the store, with its proof.</summary>
/// <param name="Plan">The plan; null where none was found.</param>
/// <param name="Years">Which years were planned with and proven on.</param>
/// <param name="Needs">What each zone needs.</param>
/// <param name="Report">How good the plan is and how far that is proven.</param>
/// <param name="Obstacles">What is in the way; empty when there is a plan.</param>
/// <param name="Verdict">The proof's verdict; null where there is no plan.</param>
public sealed record PlanMade(
    Guid? Plan, string Years, ListOf<ZoneNeed> Needs, SearchReport Report, ListOf<ObstacleView> Obstacles, Verdict? Verdict)
{
    /// <summary>The visits of a year; null where there is no plan, none were asked for, or nothing grows that lasts.</summary>
    public SeasonPlan? Season { get; init; }
}

/// <summary>How far a plan is proven to be the best.</summary>
/// <param name="Status">proven, withinGap, impossible or notFound.</param>
/// <param name="Levels">The aims in their order.</param>
/// <param name="EffortSeconds">Solver work in deterministic seconds: the same on every run and machine.</param>
/// <param name="Programs">Programs tried before their hours could be found.</param>
/// <param name="Gap">The largest gap of any level, 0 to 1.</param>
public sealed record SearchReport(string Status, ListOf<AimView> Levels, double EffortSeconds, int Programs, double Gap);

/// <summary>One aim: what was reached and what cannot be bettered.</summary>
/// <param name="Aim">Which.</param>
/// <param name="Unit">Of the values.</param>
/// <param name="Value">What the plan reaches.</param>
/// <param name="Bound">No plan can reach less, given the aims before.</param>
/// <param name="Gap">How much of the value might be saved at most, 0 to 1.</param>
public sealed record AimView(string Aim, string Unit, double Value, double Bound, double Gap);

/// <summary>Something that stands in the way of any plan.</summary>
/// <param name="Where">Supply, controller or zone, in the survey's words.</param>
/// <param name="What">One sentence in the person's terms.</param>
/// <param name="Advice">Changes that would free it, smallest first, each verified by planning again with it.</param>
public sealed record ObstacleView(string Where, string What, ListOf<string> Advice)
{
    /// <summary>The sentence with its places, so that it can be said in any language.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public SentenceParts? Said { get; init; }

    /// <summary>The same changes as values, so that they can be said in any language.</summary>
    public ListOf<AdviceView> Changes { get; init; } = [];
}

/// <summary>A change that would make a plan possible; which members are given depends on the kind.</summary>
/// <param name="Kind">moreHours, moreFlow, anotherDay, largerController, movedStation, clocksFollow or lessAsked.</param>
/// <param name="What">In English, in the person's terms.</param>
/// <param name="Name">The supply or the controller; the controllers, set apart by commas, of clocksFollow.</param>
public sealed record AdviceView(string Kind, string What, string Name)
{
    /// <summary>moreHours: how much longer the longest permitted window gets, minutes.</summary>
    public int? Minutes { get; init; }

    /// <summary>moreFlow: how much more the supply gives, L/min.</summary>
    public double? FlowLpm { get; init; }

    /// <summary>anotherDay: the day of the week; none where the limit to odd or even dates is lifted.</summary>
    public IsoDayOfWeek? Day { get; init; }

    /// <summary>largerController: further programs.</summary>
    public int? Programs { get; init; }

    /// <summary>largerController: further start times a program.</summary>
    public int? Starts { get; init; }

    /// <summary>largerController: how much longer its longest run time is, s.</summary>
    public int? RunTimeSeconds { get; init; }

    /// <summary>movedStation: its station now.</summary>
    public int? Station { get; init; }

    /// <summary>movedStation: the controller that it is moved to.</summary>
    public string? To { get; init; }

    /// <summary>movedStation: its station there.</summary>
    public int? ToStation { get; init; }

    /// <summary>lessAsked: how much less, percent.</summary>
    public int? Percent { get; init; }
}

/// <summary>What proving came to; the proof is in the store beside the plan.</summary>
/// <param name="Plan">The plan.</param>
/// <param name="Version">Its version with the proof.</param>
/// <param name="SurveyHasChanged">Whether the plan was made for another survey than the one that stands.</param>
/// <param name="Years">Which years were planned with and proven on.</param>
/// <param name="Verdict">The verdict.</param>
public sealed record PlanProven(Guid Plan, long Version, bool SurveyHasChanged, string Years, Verdict Verdict);

/// <summary>The visits of a year; the plan with these visits is in the store as a plan of its own, with its proof and with
/// <see cref="SeasonKept"/>.</summary>
/// <param name="Plan">The plan with the visits; null where no programs could be found.</param>
/// <param name="Years">Which years they were found with.</param>
/// <param name="Season">The visits; null where no programs could be found.</param>
/// <param name="Obstacles">What is in the way of any programs; empty when there is a plan.</param>
/// <param name="Verdict">The proof's verdict; null where there is no plan.</param>
public sealed record VisitsFound(Guid? Plan, string Years, SeasonPlan? Season, ListOf<ObstacleView> Obstacles, Verdict? Verdict);

/// <summary>The season of a plan, as it is kept beside the plan.</summary>
/// <param name="Years">Which years it was found with.</param>
/// <param name="Season">The visits.</param>
/// <param name="Curve">What a visit is worth: seasons of fewer and more visits under the same wishes.</param>
/// <param name="Weeks">How the plan with its visits waters the site week by week, mean of the years it was found with.</param>
public sealed record SeasonKept(string Years, SeasonPlan Season, VisitCurve Curve, YearOfWater Weeks)
{
    /// <summary>The sentence about the years with its places; null in seasons that were kept before it had any.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public SentenceParts? YearsSaid { get; init; }
}
