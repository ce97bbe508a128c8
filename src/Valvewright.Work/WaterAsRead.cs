using Valvewright.Engine.Proof;
using Valvewright.Engine.Readings;

namespace Valvewright.Work;

/// <summary>What the programs read off a controller would water over the years of record: minutes that no setting contradicts may still be
/// far too few.</summary>
public static class WaterAsRead
{
    /// <summary>The controller's zones over the years not planned with; null where not all that is set was read for certain.</summary>
    /// <param name="years">The site and its years.</param>
    /// <param name="controller">The controller's name.</param>
    /// <param name="read">What was understood.</param>
    /// <param name="at">Site time of the reading.</param>
    public static ListOf<ZoneProof>? Of(SiteYears years, string controller, ReadText read, LocalDateTime at)
    {
        ArgumentNullException.ThrowIfNull(years);
        ArgumentNullException.ThrowIfNull(read);
        Site then = years.AsOf(at.Date).Site,
            alone = then with { Controllers = then.Controllers.Where(c => c.Name == controller).ToListOf() };
        SiteController own = alone.Controllers[0];
        if (!StandingPrograms.IsWhole(own, read.Reading) || read.Reading.Off == true)
        {
            return null;
        }

        try
        {
            StandingPrograms standing = StandingPrograms.Of(alone, [new ControllerRead("", own, read)], null, at.Date);
            return Proofs.Replay(alone, standing.Plan, years.HeldBack,
                new ProofOptions(at.Date, years.Training) { CalendarYears = 1, NextWaterings = 0 }).Zones;
        }
        catch (RefusalException)
        {
            return null;
        }
    }
}
