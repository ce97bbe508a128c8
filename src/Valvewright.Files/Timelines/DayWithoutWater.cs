using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;

namespace Valvewright.Files.Timelines;

/// <summary>A date on which nothing is to run at a controller, such as a wedding: what to set before and after.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="Left">What would run on the date and is left out, by rising time; none: nothing is to be set.</param>
/// <param name="AlsoLeft">What is left out besides because of the times at which a person is there.</param>
/// <param name="OffAfter">Switch it off after this time: what ran before has closed; site time.</param>
/// <param name="OffBefore">And before this one.</param>
/// <param name="OnAfter">Switch it on again after this time.</param>
/// <param name="OnBefore">And before this one, when it runs next; null where nothing runs for weeks.</param>
/// <param name="HoldDays">A rain delay that does the same by itself, set between the first two times; null where the controller has none so
/// long.</param>
public sealed record DayWithoutWater(
    string Controller, ListOf<Watering> Left, ListOf<Watering> AlsoLeft, LocalDateTime OffAfter, LocalDateTime OffBefore,
        LocalDateTime OnAfter, LocalDateTime? OnBefore, int? HoldDays)
{
    private const int DaysAround = 21;

    /// <summary>What each controller of a site needs for a date to stay dry.</summary>
    public static ListOf<DayWithoutWater> Of(Site site, Plan plan, LocalDate date, string? only = null)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        return site.Controllers.Where(c => (only is null || c.Name == only) && plan.Controllers.Any(p => p.Controller == c.Name))
            .Select(c => OfOne(site, plan, c, date)).ToListOf();
    }

    private static DayWithoutWater OfOne(Site site, Plan plan, SiteController controller, LocalDate date)
    {
        DateTimeZone zone = site.Zone();
        Instant begins = zone.AtStartOfDay(date).ToInstant(), ends = zone.AtStartOfDay(date.PlusDays(1)).ToInstant();
        Watering[] all = [.. SiteWaterings.Of(site, plan, date.PlusDays(-DaysAround), date.PlusDays(DaysAround),
            controller.Name).Waterings];
        Watering[] wet = [.. all.Where(w => w.Opens < ends && w.Closes > begins)];
        LocalDateTime At(Instant moment) => moment.InZone(zone).LocalDateTime;
        if (wet.Length == 0)
        {
            return new DayWithoutWater(controller.Name, [], [], At(begins), At(begins), At(ends), null, null);
        }

        // Runs that follow each other belong together: a program that is cut in its middle is not taken up again.
        Instant first = wet.Min(w => w.Opens), last = Instant.Max(ends, wet.Max(w => w.Closes));
        Watering[] before = [.. all.Where(w => w.Closes <= first && !IsSameTurn(w, wet[0]))];
        Watering[] turn = [.. all.Where(w => !wet.Contains(w) && wet.Any(o => IsSameTurn(w, o)))];
        first = turn.Append(wet[0]).Min(w => w.Opens);
        last = Instant.Max(last, turn.Append(wet[^1]).Max(w => w.Closes));
        Instant after = before.Where(w => w.Closes <= first)
            .Select(w => w.Closes).DefaultIfEmpty(begins - Duration.FromDays(DaysAround)).Max();
        Watering? next = all.Where(w => w.Opens >= last).MinBy(w => w.Opens);
        return new DayWithoutWater(
            controller.Name, wet.ToListOf(), turn.ToListOf(), At(after), At(first), At(ends), next is null ? null : At(next.Opens),
            HoldFor(controller.Profile, ends - first));
    }

    private static bool IsSameTurn(Watering one, Watering other) =>
        one.Program == other.Program && one.Start == other.Start && Math.Abs((one.Opens - other.Opens).TotalHours) < 12;

    /// <summary>Set just before the first run that is to be left out, it must last to the end of the date.</summary>
    private static int? HoldFor(Profile profile, Duration span)
    {
        int days = (int)Math.Ceiling(span.TotalDays) + 1;
        return days <= profile.LargestRainHoldDays ? days : null;
    }
}
