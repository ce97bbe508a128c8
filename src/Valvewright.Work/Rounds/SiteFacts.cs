using Valvewright.Engine.Metering;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Season;

namespace Valvewright.Work.Rounds;

/// <summary>What is known of a site on the day that rounds are planned.</summary>
public sealed record SiteFacts
{
    /// <summary>The survey.</summary>
    public required Site Site { get; init; }

    /// <summary>Its plan; null where none was saved.</summary>
    public Plan? Plan { get; init; }

    /// <summary>The last visit to each controller that has a record of one.</summary>
    public ListOf<VisitDone> LastVisits { get; init; } = [];

    /// <summary>Traces that no repair has ended.</summary>
    public ListOf<OpenFault> Faults { get; init; } = [];

    /// <summary>Batteries with the date to change them by.</summary>
    public ListOf<BatteryDue> Batteries { get; init; } = [];

    /// <summary>The latest interval of each water meter.</summary>
    public ListOf<MeterSeen> Meters { get; init; } = [];

    /// <summary>What this year's weather advises; empty where it was not given.</summary>
    public ListOf<InYearAdvice> Advice { get; init; } = [];
}

/// <summary>The last visit to a controller.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="On">When.</param>
/// <param name="Percent">The percent that it left, 0 for off; null where not known.</param>
public sealed record VisitDone(string Controller, LocalDate On, int? Percent);

/// <summary>A fault that is still open.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="Station">The station; null where all are meant.</param>
/// <param name="Complaint">What the caller said.</param>
/// <param name="Since">When it was reported.</param>
public sealed record OpenFault(string Controller, int? Station, Sentence Complaint, LocalDate Since);

/// <summary>A battery and the date to change it by.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="ChangeBy">The date.</param>
/// <param name="Volts">What was read; null where only the forecast is known.</param>
public sealed record BatteryDue(string Controller, LocalDate ChangeBy, double? Volts);

/// <summary>The latest interval of a meter.</summary>
/// <param name="Supply">The supply that it meters.</param>
/// <param name="Interval">What it says.</param>
public sealed record MeterSeen(string Supply, MeterInterval Interval);
