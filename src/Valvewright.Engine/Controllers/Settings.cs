using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Controllers;

/// <summary>Everything that is set in a controller, apart from its clock.</summary>
/// <param name="Programs">The programs in use, by letter.</param>
/// <param name="PercentAdjust">The one percent that scales all run times.</param>
public sealed record Settings(ListOf<Program> Programs, int PercentAdjust = 100);

/// <summary>
/// Stations that share start times and watering days. A start time starts the whole program: its stations run one
/// after another, by rising number.
/// </summary>
/// <param name="Letter">A, B, C, ...</param>
/// <param name="StartTimes">By the controller's clock. None: the program never runs.</param>
/// <param name="RunTimes">Stations of the program by rising number; a station left out has no run time. None: never runs.</param>
/// <param name="Days">Its watering days; null: never runs.</param>
public sealed record Program(char Letter, ListOf<LocalTime> StartTimes, ListOf<RunTime> RunTimes, DayRule? Days);

/// <summary>How long a station runs at each start, at 100 percent.</summary>
/// <param name="Station">Station number, from 1.</param>
/// <param name="Seconds">Run time at 100 percent.</param>
public readonly record struct RunTime(int Station, int Seconds);
