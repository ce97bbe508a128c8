using System.Collections.Concurrent;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Weather;

namespace Valvewright.Planning.Choices;

/// <summary>On which days of the training years a day rule waters: asked once for all zones.</summary>
internal sealed class WateringDates
{
    private readonly LocalDate[][] dates;
    private readonly ConcurrentDictionary<(DayRule Rule, bool Skips31, bool Skips29), double[][]> known = new();

    /// <summary>The days of the years and of what leads up to them, as <see cref="Engine.Balance.ZoneDays"/> counts them.</summary>
    public WateringDates(IReadOnlyList<Climate> years)
    {
        dates = [.. years.Select(y => y.WithBefore()).Select(y => Enumerable.Range(0, y.Days).Select(y.DateOf).ToArray())];
        Months = [.. dates.Select(year => year.Select(d => d.Month - 1).ToArray())];
    }

    /// <summary>By year and day, the month, January 0.</summary>
    public int[][] Months { get; }

    /// <summary>By year and day, 1 with water and 0 without. Not to be written to.</summary>
    public double[][] Of(DayRule rule, Profile profile) =>
        known.GetOrAdd((rule, profile.OddSkips31, profile.OddSkips29February), _ =>
            [.. dates.Select(year => Array.ConvertAll(year, d => rule.WatersOn(d, profile) ? 1.0 : 0))]);

    /// <summary>By year and day, what a function of the date says.</summary>
    public double[][] Map(Func<LocalDate, double> of) => [.. dates.Select(year => Array.ConvertAll(year, d => of(d)))];
}
