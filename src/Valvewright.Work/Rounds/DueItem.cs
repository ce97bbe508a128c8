namespace Valvewright.Work.Rounds;

/// <summary>Why a trip to a controller is due.</summary>
public enum DueKind
{
    /// <summary>A fault that a trace left open.</summary>
    Fault,

    /// <summary>A water meter that shows more or less than the timeline should use.</summary>
    Meter,

    /// <summary>A battery to change.</summary>
    Battery,

    /// <summary>A visit of the season.</summary>
    Season,

    /// <summary>A percent that this year's weather makes worth a trip.</summary>
    Advice,
}

/// <summary>What happens to plants or water if no one goes.</summary>
public enum DueRisk
{
    /// <summary>Little changes.</summary>
    Low,

    /// <summary>Water is wasted, or the reserve runs down.</summary>
    Medium,

    /// <summary>Plants go dry, water runs away, or the controller stops.</summary>
    High,
}

/// <summary>One reason to go to a controller.</summary>
/// <param name="Site">The site's name.</param>
/// <param name="Controller">The controller; for a meter, the first one on its supply.</param>
/// <param name="Kind">What kind of reason.</param>
/// <param name="Why">The reason in words.</param>
/// <param name="Earliest">First date on which a trip is useful.</param>
/// <param name="Latest">Last date on which it is in time; a date that has passed means overdue.</param>
/// <param name="Minutes">Minutes of work there.</param>
/// <param name="WorthLitres">Water and weighed unmet use at stake, liters; null where not known.</param>
/// <param name="Risk">What happens if no one goes.</param>
public sealed record DueItem(
    string Site, string Controller, DueKind Kind, Sentence Why, LocalDate Earliest, LocalDate Latest, int Minutes, double? WorthLitres,
    DueRisk Risk);

/// <summary>Minutes that each kind of work takes; rules of thumb, to be replaced by one's own.</summary>
/// <param name="Fault">Finding and repairing a fault.</param>
/// <param name="Meter">Looking for a leak or a stuck valve.</param>
/// <param name="Battery">Changing a battery.</param>
/// <param name="Season">Setting a controller at a visit of the season.</param>
/// <param name="Advice">Changing a percent.</param>
public sealed record DueMinutes(int Fault = 40, int Meter = 30, int Battery = 10, int Season = 15, int Advice = 5)
{
    /// <summary>The minutes of a kind.</summary>
    public int Of(DueKind kind) => kind switch
    {
        DueKind.Fault => Fault,
        DueKind.Meter => Meter,
        DueKind.Battery => Battery,
        DueKind.Season => Season,
        _ => Advice,
    };
}
