using Valvewright.Engine.Plans;
using Valvewright.Engine.Season;
using Valvewright.Engine.Weather;

namespace Valvewright.Work.Rounds;

/// <summary>What this year's weather advises for a site.</summary>
/// <param name="Controllers">By controller.</param>
/// <param name="Missing">Why there is none; null where there is.</param>
public sealed record SiteAdvice(ListOf<InYearAdvice> Controllers, Sentence? Missing)
{
    /// <summary>No advice.</summary>
    public static SiteAdvice None(Sentence why) => new([], why);

    /// <summary>Works the advice out.</summary>
    /// <param name="facts">The site, its plan, its last visits.</param>
    /// <param name="years">Its weather; null where the survey names none.</param>
    /// <param name="soFar">This year's weather to the day before the date, where it is apart; null: from the record.</param>
    /// <param name="today">The date.</param>
    /// <exception cref="RefusalException">A controller can't be set to what the last visit left.</exception>
    public static SiteAdvice Of(SiteFacts facts, SiteYears? years, Climate? soFar, LocalDate today)
    {
        ArgumentNullException.ThrowIfNull(facts);
        if (facts.Plan is not { } plan)
        {
            return None("no saved plan");
        }

        if (years is null)
        {
            return None("the survey names no weather");
        }

        if (plan.Controllers.All(c => c.Visits.Count == 0))
        {
            return None("the plan has no visits");
        }

        LocalDate first = InYearAdvice.FirstDayOfYear(facts.Site, today), last = today.PlusDays(-1);
        Climate own = years.Built.Climate;
        if (soFar is null && !(own.First <= first && own.Last >= last && first <= last))
        {
            return None("no weather of this year");
        }

        Dictionary<string, int> now = facts.LastVisits.Where(v => v.Percent is not null).GroupBy(v => v.Controller)
            .ToDictionary(g => g.Key, g => g.OrderBy(v => v.On).Last().Percent!.Value);
        return new SiteAdvice(
            YearAdvice.Of(new AdviceRequest(facts.Site, plan, years.Training, soFar ?? own.Between(first, last), now)).Controllers, null);
    }
}
