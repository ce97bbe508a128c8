using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Controllers;

/// <summary>What a controller opens and closes in true time, in the order of opening.</summary>
/// <param name="Runs">Every run whose start fell due within the dates asked for.</param>
/// <param name="CarriedIn">Runs of earlier starts that are open as the first date begins, or open after it began.</param>
/// <param name="LostStarts">Starts that fell due and were not followed.</param>
/// <param name="PumpRuns">When the pump or master valve output is on.</param>
public sealed record SiteTimeline(
    ListOf<SiteRun> Runs, ListOf<SiteRun> CarriedIn, ListOf<SiteLostStart> LostStarts, ListOf<Interval> PumpRuns);

/// <summary>One opening of one station in true time.</summary>
/// <param name="Station">Station number, from 1.</param>
/// <param name="Program">The program's letter, or <see cref="StationRun.ByHand"/>.</param>
/// <param name="Start">Which of the program's start times, from 0; -1 for a run by hand.</param>
/// <param name="Opens">When it opens, to the nearest second.</param>
/// <param name="Closes">When it closes, to the nearest second.</param>
/// <param name="Shown">What the controller's display shows as it opens.</param>
public readonly record struct SiteRun(int Station, char Program, int Start, Instant Opens, Instant Closes, LocalDateTime Shown);

/// <summary>A start that was not followed, in true time.</summary>
/// <param name="Program">The program's letter, or <see cref="StationRun.ByHand"/>.</param>
/// <param name="DueAt">When it fell due, to the nearest second.</param>
/// <param name="Reason">Why it was not followed.</param>
public readonly record struct SiteLostStart(char Program, Instant DueAt, LostReason Reason);
