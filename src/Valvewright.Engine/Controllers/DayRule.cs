using System.Text.Json.Serialization;
using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Controllers;

/// <summary>On which dates a program waters.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(DaysOfWeek), "daysOfWeek")]
[JsonDerivedType(typeof(OddDays), "odd")]
[JsonDerivedType(typeof(EvenDays), "even")]
[JsonDerivedType(typeof(EveryNDays), "interval")]
public abstract record DayRule
{
    private protected DayRule()
    {
    }

    /// <summary>Which kind of rule this is, as profiles offer them.</summary>
    [JsonIgnore]
    public abstract DayRuleKind Kind { get; }

    /// <summary>Whether a controller of the profile waters on the date, by its own calendar.</summary>
    public abstract bool WatersOn(LocalDate date, Profile profile);
}

/// <summary>Chosen days of the week; none chosen means the program never runs.</summary>
/// <param name="Days">The chosen days, Monday first, each once.</param>
public sealed record DaysOfWeek(ListOf<IsoDayOfWeek> Days) : DayRule
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override DayRuleKind Kind => DayRuleKind.DaysOfWeek;

    /// <inheritdoc/>
    public override bool WatersOn(LocalDate date, Profile profile) => Days.Contains(date.DayOfWeek);
}

/// <summary>Odd dates: the 31st and the 1st after it are both odd, unless the profile skips the 31st.</summary>
public sealed record OddDays : DayRule
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override DayRuleKind Kind => DayRuleKind.Odd;

    /// <inheritdoc/>
    public override bool WatersOn(LocalDate date, Profile profile)
    {
        ArgumentNullException.ThrowIfNull(profile);
        return date.Day % 2 == 1
            && !(profile.OddSkips31 && date.Day == 31)
            && !(profile.OddSkips29February && date is { Month: 2, Day: 29 });
    }
}

/// <summary>Even dates.</summary>
public sealed record EvenDays : DayRule
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override DayRuleKind Kind => DayRuleKind.Even;

    /// <inheritdoc/>
    public override bool WatersOn(LocalDate date, Profile profile) => date.Day % 2 == 0;
}

/// <summary>Every n days, counted from a date on which it waters; the count runs on across month and year ends.</summary>
/// <param name="Days">The interval, 1 or more.</param>
/// <param name="Anchor">A date on which it waters.</param>
public sealed record EveryNDays(int Days, LocalDate Anchor) : DayRule
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override DayRuleKind Kind => DayRuleKind.Interval;

    /// <inheritdoc/>
    public override bool WatersOn(LocalDate date, Profile profile)
    {
        int since = Period.DaysBetween(Anchor, date) % Days;
        return since == 0;
    }
}
