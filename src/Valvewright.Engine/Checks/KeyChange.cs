using System.Text.Json.Serialization;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks;

/// <summary>What a controller holds, complete: settings, and whether it may run.</summary>
/// <param name="Settings">Programs and percent adjust.</param>
/// <param name="Off">Whether it is switched off.</param>
/// <param name="RainHoldDays">Days of rain delay to go.</param>
/// <param name="ClockShows">What its clock shows at the time of reading; null: the right time.</param>
public sealed record AsFound(Settings Settings, bool Off = false, int RainHoldDays = 0, LocalDateTime? ClockShows = null)
{
    /// <summary>The program of that letter; an empty one where nothing is set.</summary>
    public Program ProgramOf(char letter) => Settings.Programs.FirstOrDefault(p => p.Letter == letter) ?? new Program(letter, [], [], null);

    /// <summary>The same with one program as given.</summary>
    public AsFound With(Program program)
    {
        ArgumentNullException.ThrowIfNull(program);
        return this with
        {
            Settings = Settings with
            {
                Programs = Settings.Programs.Where(p => p.Letter != program.Letter).Append(program).OrderBy(p => p.Letter).ToListOf(),
            },
        };
    }

    /// <summary>The same after some changes.</summary>
    public AsFound After(IEnumerable<KeyChange> changes)
    {
        ArgumentNullException.ThrowIfNull(changes);
        return changes.Aggregate(this, (held, change) => change.ApplyTo(held));
    }
}

/// <summary>One thing that a person sets at a controller.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "key")]
[JsonDerivedType(typeof(StartChange), "start")]
[JsonDerivedType(typeof(RunChange), "runTime")]
[JsonDerivedType(typeof(DaysChange), "days")]
[JsonDerivedType(typeof(PercentChange), "percent")]
[JsonDerivedType(typeof(SwitchChange), "onOrOff")]
[JsonDerivedType(typeof(HoldChange), "rainHold")]
[JsonDerivedType(typeof(ClockKeyed), "clock")]
public abstract record KeyChange
{
    private protected KeyChange()
    {
    }

    /// <summary>What the controller holds once it is set.</summary>
    public abstract AsFound ApplyTo(AsFound held);
}

/// <summary>A start time is set, moved or cleared.</summary>
/// <param name="Program">Letter.</param>
/// <param name="From">The start time as it stands; null for a new one.</param>
/// <param name="To">The start time to set; null to clear it.</param>
public sealed record StartChange(char Program, LocalTime? From, LocalTime? To) : KeyChange
{
    /// <inheritdoc/>
    public override AsFound ApplyTo(AsFound held)
    {
        ArgumentNullException.ThrowIfNull(held);
        Program program = held.ProgramOf(Program);
        IEnumerable<LocalTime> kept = program.StartTimes.Where(s => s != From);
        return held.With(program with { StartTimes = (To is { } to ? kept.Append(to) : kept).Distinct().Order().ToListOf() });
    }
}

/// <summary>A run time is set.</summary>
/// <param name="Program">Letter.</param>
/// <param name="Station">Station.</param>
/// <param name="Seconds">Run time; 0 clears it.</param>
public sealed record RunChange(char Program, int Station, int Seconds) : KeyChange
{
    /// <inheritdoc/>
    public override AsFound ApplyTo(AsFound held)
    {
        ArgumentNullException.ThrowIfNull(held);
        Program program = held.ProgramOf(Program);
        IEnumerable<RunTime> kept = program.RunTimes.Where(r => r.Station != Station);
        return held.With(program with
            { RunTimes = (Seconds > 0 ? kept.Append(new RunTime(Station, Seconds)) : kept).OrderBy(r => r.Station).ToListOf() });
    }
}

/// <summary>Watering days are set.</summary>
/// <param name="Program">Letter.</param>
/// <param name="Days">The days; null for none.</param>
public sealed record DaysChange(char Program, DayRule? Days) : KeyChange
{
    /// <inheritdoc/>
    public override AsFound ApplyTo(AsFound held)
    {
        ArgumentNullException.ThrowIfNull(held);
        return held.With(held.ProgramOf(Program) with { Days = Days });
    }
}

/// <summary>Percent adjust is set.</summary>
/// <param name="Percent">Percent.</param>
public sealed record PercentChange(int Percent) : KeyChange
{
    /// <inheritdoc/>
    public override AsFound ApplyTo(AsFound held)
    {
        ArgumentNullException.ThrowIfNull(held);
        return held with { Settings = held.Settings with { PercentAdjust = Percent } };
    }
}

/// <summary>It is switched on or off.</summary>
/// <param name="On">On.</param>
public sealed record SwitchChange(bool On) : KeyChange
{
    /// <inheritdoc/>
    public override AsFound ApplyTo(AsFound held)
    {
        ArgumentNullException.ThrowIfNull(held);
        return held with { Off = !On };
    }
}

/// <summary>The rain delay is set.</summary>
/// <param name="Days">Days; 0 for none.</param>
public sealed record HoldChange(int Days) : KeyChange
{
    /// <inheritdoc/>
    public override AsFound ApplyTo(AsFound held)
    {
        ArgumentNullException.ThrowIfNull(held);
        return held with { RainHoldDays = Days };
    }
}

/// <summary>The clock is set right.</summary>
/// <param name="Shows">What it should show at the time of reading.</param>
public sealed record ClockKeyed(LocalDateTime Shows) : KeyChange
{
    /// <inheritdoc/>
    public override AsFound ApplyTo(AsFound held)
    {
        ArgumentNullException.ThrowIfNull(held);
        return held with { ClockShows = null };
    }
}
