using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Files.Timelines;

namespace Valvewright.Work.Rounds;

/// <summary>The visit of the season that a controller waits for.</summary>
/// <param name="Date">Its date in the season.</param>
/// <param name="PercentBefore">The percent until then; 0 means off.</param>
/// <param name="PercentAfter">The percent from then on; 0 means off.</param>
/// <param name="ChangesPrograms">Whether it sets more than the percent.</param>
/// <param name="Until">The date before the next visit that changes something.</param>
internal sealed record SeasonDue(LocalDate Date, int PercentBefore, int PercentAfter, bool ChangesPrograms, LocalDate Until)
{
    /// <summary>The visit to make now or next; null where the plan has none that changes something.</summary>
    /// <param name="plan">The controller's plan.</param>
    /// <param name="today">The date.</param>
    /// <param name="last">The last visit on record; null where none is. Without a record, visits are taken as made once their
    /// days of slack have passed.</param>
    public static SeasonDue? Of(ControllerPlan plan, LocalDate today, VisitDone? last)
    {
        SeasonDue[] all = [.. Changes(plan, today)];
        SeasonDue? open = all.LastOrDefault(v => v.Date <= today);
        bool done = open is null || (last is { } visit ? visit.On >= open.Date.PlusDays(-Visit.SlackDays) && IsAsLeft(visit, open)
            : open.Date.PlusDays(Visit.SlackDays) < today);
        SeasonDue? next = all.FirstOrDefault(v => v.Date > today);
        return !done ? open
            : next is not null && last is { } early && early.On >= next.Date.PlusDays(-Visit.SlackDays) && IsAsLeft(early, next)
            ? all.FirstOrDefault(v => v.Date > next.Date) : next;
    }

    /// <summary>Water between leaving the settings as they are and making the visit, from today or its date to the next visit.</summary>
    public double Litres(Site site, ControllerPlan plan, LocalDate today)
    {
        LocalDate from = LocalDate.Max(Date, today);
        if (from > Until)
        {
            return 0;
        }

        Settings before = SettingsAt(plan, Date.PlusDays(-1)), after = SettingsAt(plan, Date);
        return Math.Abs(Water(site, plan, before, PercentBefore, from, Until) - Water(site, plan, after, PercentAfter, from, Until));
    }

    private static bool IsAsLeft(VisitDone visit, SeasonDue due) => visit.Percent is null || due.ChangesPrograms
        || visit.Percent == due.PercentAfter;

    private static Settings SettingsAt(ControllerPlan plan, LocalDate date) => Spell.Of(plan, date, date).Single().SettingsOf(plan);

    private static double Water(Site site, ControllerPlan plan, Settings settings, int percent, LocalDate from, LocalDate to)
    {
        if (percent == 0)
        {
            return 0;
        }

        ControllerPlan steady = plan with { Settings = settings with { PercentAdjust = percent }, Visits = [] };
        return SiteWaterings.Of(site, new Plan(site.Name, [steady]), from, to, plan.Controller).Waterings.Sum(w => w.Litres);
    }

    private static IEnumerable<SeasonDue> Changes(ControllerPlan plan, LocalDate today)
    {
        Spell[] spells = [.. Spell.Of(plan, today.PlusYears(-1), today.PlusYears(2))];
        List<(Spell Before, Spell After)> changes = [.. spells.Zip(spells.Skip(1))
            .Where(s => s.First.Percent != s.Second.Percent || s.First.Programs != s.Second.Programs)];
        for (int i = 0; i < changes.Count; i++)
        {
            (Spell before, Spell after) = changes[i];
            yield return new SeasonDue(
                after.From, before.Percent, after.Percent, before.Programs != after.Programs,
                i + 1 < changes.Count ? changes[i + 1].After.From.PlusDays(-1) : after.To);
        }
    }
}
