using System.Text.Json.Serialization;
using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Proof;

/// <summary>The replay of a plan on real weather, and its verdict.</summary>
public sealed record ProofReport
{
    /// <summary>The site's name.</summary>
    public required string Site { get; init; }

    /// <summary>What it comes to.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>The stretches of weather that it was replayed on, by rising date.</summary>
    public required ListOf<ReplayedYear> Replayed { get; init; }

    /// <summary>First date of the calendar on which the rules were checked.</summary>
    public required LocalDate RulesFrom { get; init; }

    /// <summary>Last date of it.</summary>
    public required LocalDate RulesTo { get; init; }

    /// <summary>Every rule that is broken; empty for a plan that can be set.</summary>
    public required ListOf<Breach> Breaches { get; init; }

    /// <summary>Every zone.</summary>
    public required ListOf<ZoneProof> Zones { get; init; }

    /// <summary>
    /// Seedbeds that the plan has programs of their own for, over their weeks and by the hour. In <see cref="Zones"/> they are the lawns
    /// that they become, with all water of the year.
    /// </summary>
    public ListOf<ZoneProof> Seedbeds { get; init; } = [];

    /// <summary>Every supply.</summary>
    public required ListOf<SupplyProof> Supplies { get; init; }

    /// <summary>Every controller.</summary>
    public required ListOf<Workload> Workloads { get; init; }

    /// <summary>The plan and the two common practices on the same replay.</summary>
    public required ListOf<Practice> Comparison { get; init; }

    /// <summary>What the trade measures a year's water by.</summary>
    public required Rulers Rulers { get; init; }

    /// <summary>The next waterings of every controller, by controller and rising time.</summary>
    public required ListOf<Watering> Next { get; init; }
}

/// <summary>One stretch of weather of the replay.</summary>
/// <param name="From">First day.</param>
/// <param name="To">Last day.</param>
/// <param name="EtoMm">Reference evapotranspiration.</param>
/// <param name="RainMm">Rain.</param>
public sealed record ReplayedYear(LocalDate From, LocalDate To, double EtoMm, double RainMm);

/// <summary>How a supply is used.</summary>
/// <param name="Supply">Its name.</param>
/// <param name="LimitLpm">What it gives at most.</param>
/// <param name="Peak">The largest flow at any second of the calendar; null when nothing draws on it.</param>
/// <param name="BusiestDay">The date with most hours of flow; null when nothing draws on it.</param>
/// <param name="HoursOnBusiestDay">Hours of that date (site time, from the opening) with any valve open.</param>
public sealed record SupplyProof(string Supply, double LimitLpm, FlowPeak? Peak, LocalDate? BusiestDay, double HoursOnBusiestDay)
{
    /// <summary>Watering that by the watch falls on another date than the rule's, within hours over midnight; null where there is
    /// none.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public DatesInDoubt? InDoubt { get; init; }
}

/// <summary>Watering in the morning of permitted hours that began on the evening before: allowed or not, as the owner of the rule means
/// it.</summary>
/// <param name="Share">Of all watering that the rule is about, 0 to 1.</param>
/// <param name="FirstAt">The first time, in local time.</param>
public sealed record DatesInDoubt(double Share, LocalDateTime FirstAt);

/// <summary>What a proof may be told.</summary>
/// <param name="From">The date from which the calendar runs on which rules are checked, and the next waterings are looked for.</param>
/// <param name="Known">The years that the plan was made with: what the common practices know of the weather.</param>
public sealed record ProofOptions(LocalDate From, IReadOnlyList<Weather.Climate> Known)
{
    /// <summary>Years of calendar on which rules are checked: with a leap day, and every change of the clocks.</summary>
    public int CalendarYears { get; init; } = 4;

    /// <summary>How many waterings of each controller to list.</summary>
    public int NextWaterings { get; init; } = 10;

    /// <summary>What the plan is called beside the practices.</summary>
    public string PlanName { get; init; } = "this plan";

    /// <summary>Other ways of watering to show beside it, before the practices.</summary>
    public ListOf<OtherWay> Beside { get; init; } = [];
}

/// <summary>Another plan to compare with, replayed on the same weather.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="ShortName">The same in a word or two.</param>
/// <param name="Plan">What is set.</param>
public sealed record OtherWay(string Name, string ShortName, Plans.Plan Plan);
