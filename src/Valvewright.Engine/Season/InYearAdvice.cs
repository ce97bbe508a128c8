using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Season;

/// <summary>What to do at a controller today, given this year's weather so far.</summary>
/// <param name="Controller">Its name.</param>
/// <param name="PercentNow">What it is set to.</param>
/// <param name="PercentToday">What to set today; 0 means off.</param>
/// <param name="SavedLitres">What that saves until the year's end against leaving it, in water and weighed stress.</param>
/// <param name="NextVisit">The next visit of the season.</param>
/// <param name="EarlierVisit">A date before it that is worth the change; null where none is.</param>
/// <param name="EarlierSavesLitres">What coming earlier saves.</param>
/// <param name="RainHoldDays">Days of rain hold to set today, where the controller has one and the soil is wet enough; else 0.</param>
/// <param name="Zones">How dry each zone is.</param>
public sealed record InYearAdvice(
    string Controller, int PercentNow, int PercentToday, double SavedLitres, LocalDate NextVisit, LocalDate? EarlierVisit, double EarlierSavesLitres, int RainHoldDays, ListOf<ZoneToday> Zones)
{
    /// <summary>
    /// Advice for every controller of a season. What is to come is taken from the years of record, each as likely as the other.
    /// </summary>
    /// <param name="site">The site.</param>
    /// <param name="plan">Its programs.</param>
    /// <param name="season">Its visits.</param>
    /// <param name="years">Whole years of record.</param>
    /// <param name="soFar">This year's weather from the year's first day to yesterday.</param>
    /// <param name="percentNow">What each controller is set to; one that is absent follows the season.</param>
    /// <exception cref="ArgumentException">The weather of this year does not begin on the first day of a year, or is a whole year already.</exception>
    public static ListOf<InYearAdvice> Of(
        Site site, Plan plan, SeasonPlan season, IReadOnlyList<Climate> years, Climate soFar, IReadOnlyDictionary<string, int> percentNow)
    {
        ArgumentNullException.ThrowIfNull(season);
        ArgumentNullException.ThrowIfNull(soFar);
        ArgumentNullException.ThrowIfNull(percentNow);
        SeasonCase future = SeasonCase.Of(site, plan, years, season.Options, [.. season.Controllers.Select(c => c.Controller)]);
        if (soFar.First.Month != future.Days.YearBegins.Month || soFar.First.Day != 1 || soFar.Days > 364)
        {
            throw new ArgumentException($"This year's weather runs {soFar.First:uuuu-MM-dd} to {soFar.Last:uuuu-MM-dd}; it has to begin on the first day of the year and end before the last.");
        }

        return future.Controllers.Select((c, i) =>
        {
            ControllerSeason own = season.Controllers.First(s => s.Controller == c.Controller.Name);
            RestOfYear rest = new(future, c, plan, season, own, soFar);
            return rest.Advise(percentNow.TryGetValue(c.Controller.Name, out int now) ? now : rest.PercentBySeason);
        }).ToListOf();
    }
}

/// <summary>A zone's store today.</summary>
/// <param name="Zone">Its name.</param>
/// <param name="DepletionMm">Mean depletion over its spots, by area.</param>
/// <param name="DriestSpotMm">Depletion of its driest spot.</param>
/// <param name="ReadilyMm">Depletion at which plants begin to suffer.</param>
/// <param name="DaysLeft">Days until its driest spot is past that without rain or water, at the mean use of the record's next weeks.</param>
public sealed record ZoneToday(string Zone, double DepletionMm, double DriestSpotMm, double ReadilyMm, int DaysLeft);
