using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Season;

/// <summary>What to do at a controller today, given this year's weather so far.</summary>
/// <param name="Controller">Its name.</param>
/// <param name="PercentNow">What it is set to.</param>
/// <param name="PercentToday">What to set today when the next visit is made as planned; 0 means off.</param>
/// <param name="SavedLitres">What that saves until the year's end against leaving it, in water and weighed unmet use.</param>
/// <param name="LeftLitres">What is still to be spent until the year's end after that, in water and weighed unmet use.</param>
/// <param name="NextVisit">The next visit of the season.</param>
/// <param name="Earlier">A date before it that is worth a drive, and what to set today when it is kept; null where none is.</param>
/// <param name="EarlierSavesLitres">What coming earlier saves; 0 where it is not worth it.</param>
/// <param name="RainHoldDays">Days of rain delay to set today, where the controller has one and that saves water; else 0.</param>
/// <param name="RainHoldSavesLitres">What the rain delay saves.</param>
/// <param name="Zones">How dry each zone is.</param>
public sealed record InYearAdvice(
    string Controller, int PercentNow, int PercentToday, double SavedLitres, double LeftLitres, LocalDate NextVisit, EarlierVisit? Earlier,
        double EarlierSavesLitres,
    int RainHoldDays, double RainHoldSavesLitres, ListOf<ZoneToday> Zones)
{
    /// <summary>What a change must save, as a part of what is still to be spent, for a person to drive out for it.</summary>
    public const double WorthADrive = 0.02;

    /// <summary>Whether the change is worth a drive by itself.</summary>
    public bool IsWorthADrive => SavedLitres > WorthADrive * (LeftLitres + SavedLitres);

    /// <summary>
    /// Advice for every controller with visits. What is to come is taken from the years of record, each as likely as the other.
    /// </summary>
    /// <param name="site">The site.</param>
    /// <param name="plan">Its programs with the visits of the season.</param>
    /// <param name="years">Whole years of record.</param>
    /// <param name="soFar">This year's weather from the year's first day to yesterday.</param>
    /// <param name="percentNow">What each controller is set to, since its last visit; one that is absent follows the season.</param>
    /// <exception cref="ArgumentException">The weather of this year does not begin on the first day of a year, or is a whole year already;
    /// or there are no years of record.</exception>
    public static ListOf<InYearAdvice> Of(
        Site site, Plan plan, IReadOnlyList<Climate> years, Climate soFar, IReadOnlyDictionary<string, int> percentNow)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(years);
        ArgumentNullException.ThrowIfNull(soFar);
        ArgumentNullException.ThrowIfNull(percentNow);
        LocalDate begins = FirstDayOfYear(site, soFar.First);
        if (soFar.First != begins || soFar.Last >= begins.PlusYears(1).PlusDays(-1))
        {
            throw new ArgumentException(
                $"This year's weather runs {soFar.First:uuuu-MM-dd} to {soFar.Last:uuuu-MM-dd}; it has to begin on {begins:uuuu-MM-dd} and end before the year does.");
        }

        if (years.Count == 0)
        {
            throw new ArgumentException("What is to come is taken from years of record, but there are none.");
        }

        return site.Controllers
            .Where(c => c.Zones.Any(z => z.Lasts) && plan.Controllers.Any(p => p.Controller == c.Name && p.Visits.Count > 0))
            .Select(c => new RestOfYear(
                c, plan.For(c.Name), years, soFar, percentNow.TryGetValue(c.Name, out int now) ? now : null, site.UnmetUseWeight).Advise())
            .ToListOf();
    }

    /// <summary>The first day of the year that a date lies in: 1 January, or 1 July south of the equator.</summary>
    public static LocalDate FirstDayOfYear(Site site, LocalDate date)
    {
        ArgumentNullException.ThrowIfNull(site);
        bool south = site.Place.LatitudeDeg < 0;
        return south ? new LocalDate(date.Month >= 7 ? date.Year : date.Year - 1, 7, 1) : new LocalDate(date.Year, 1, 1);
    }
}

/// <summary>A visit brought forward.</summary>
/// <param name="Date">When.</param>
/// <param name="PercentToday">What to set today; the visit then sets what the planned one would have.</param>
public sealed record EarlierVisit(LocalDate Date, int PercentToday);

/// <summary>A zone's store today.</summary>
/// <param name="Zone">Its name.</param>
/// <param name="DepletionMm">Depletion of its low quarter.</param>
/// <param name="ReadilyMm">Depletion at which plants begin to use less.</param>
/// <param name="DaysLeft">Whole days until then without rain or water, at the mean use of the record's next weeks; at most 60.</param>
public sealed record ZoneToday(string Zone, double DepletionMm, double ReadilyMm, int DaysLeft);
