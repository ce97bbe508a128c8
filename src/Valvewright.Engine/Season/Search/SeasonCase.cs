using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Season.Search;

/// <summary>A season's whole problem as numbers: controllers, years, possible days and how much each year counts.</summary>
internal sealed class SeasonCase
{
    private SeasonCase(SeasonOptions options, VisitDays days, ControllerCase[] controllers, IReadOnlyList<Climate> years)
    {
        Options = options;
        Days = days;
        Controllers = controllers;
        YearCount = years.Count;
        DayIndex = [.. years.Select(y => IndexesOf(days, y))];
        YearDays = [.. years.Select(y => y.Days)];
    }

    private SeasonCase(SeasonCase same, SeasonOptions options)
    {
        (Options, Days, Controllers, YearCount) = (options, same.Days, same.Controllers, same.YearCount);
        (DayIndex, YearDays) = (same.DayIndex, same.YearDays);
    }

    public SeasonOptions Options { get; }

    public VisitDays Days { get; }

    public ControllerCase[] Controllers { get; }

    public int YearCount { get; }

    /// <summary>By year: the day of the year's record on which each possible day lies.</summary>
    public int[][] DayIndex { get; }

    /// <summary>By year: days of its record.</summary>
    public int[] YearDays { get; }

    /// <exception cref="ArgumentException">The years do not begin where the hemisphere's years begin, or are no whole years.</exception>
    public static SeasonCase Of(Site site, Plan plan, IReadOnlyList<Climate> years, SeasonOptions options, IReadOnlyList<string>? only = null)
    {
        if (years.Count == 0)
        {
            throw new ArgumentException("A season needs at least one year of weather.");
        }

        VisitDays days = VisitDays.Of(options, site.Place.LatitudeDeg < 0);
        foreach (Climate year in years)
        {
            if (year.First.Month != days.YearBegins.Month || year.First.Day != 1 || year.Days is < 365 or > 366)
            {
                throw new ArgumentException($"A year of record runs {year.First:uuuu-MM-dd} to {year.Last:uuuu-MM-dd}; a whole year from 1 {days.YearBegins:MMMM} is needed.");
            }
        }

        ControllerCase[] controllers =
        [
            .. site.Controllers.Where(c => only is null || only.Contains(c.Name)).Select(c => ControllerCase.Of(c, plan.For(c.Name), years)),
        ];
        return new SeasonCase(options, days, controllers, years);
    }

    /// <summary>The same problem at another exchange rate.</summary>
    public SeasonCase At(double rateMm) => new(this, Options with { StressWeightMm = rateMm });

    /// <summary>The same problem with another aim.</summary>
    public SeasonCase For(SeasonAim aim) => new(this, Options with { Aim = aim });

    /// <summary>Cost of a zone's water and stress over its area, L: 1 mm over 1 m2 is 1 L.</summary>
    public double Cost(ZoneCase zone, double waterMm, double stressDays) =>
        zone.Zone.AreaM2 * (waterMm + Options.StressWeightMm * stressDays);

    private static int[] IndexesOf(VisitDays days, Climate year)
    {
        int[] indexes = new int[days.Count];
        for (int i = 0; i < indexes.Length; i++)
        {
            LocalDate date = days.YearBegins.PlusDays(days.Offsets[i]);
            AnnualDate annual = new(date.Month, date.Day);
            indexes[i] = year.DayOf(annual.InYear(year.First.Year + date.Year - days.YearBegins.Year));
        }

        return indexes;
    }
}

/// <summary>A season as the search sees it: possible days by index, rising, and a percent index for each controller from each of them on.</summary>
/// <param name="Dates">Indexes of possible days. The last one's setting holds over the new year until the first.</param>
/// <param name="Percents">By controller and visit, indexes of its percents.</param>
internal sealed record Schedule(int[] Dates, int[][] Percents);
