using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Files.Cards;

namespace Valvewright.App.Ready;

/// <summary>How long what is set stays the same: until a visit changes it, or the clock is to be set otherwise.</summary>
public static class Holding
{
    /// <summary>A card older than this is not worth showing, even for the few seconds until it is worked out again.</summary>
    public const int MostDays = 31;

    /// <summary>The last date on which a card of a day says the same to set; what it says of days to come is another matter.</summary>
    public static LocalDate Until(Site site, ControllerPlan plan, Profile profile, LocalDate day)
    {
        DateTimeZone zone = site.Zone();
        LocalDate last = Spell.Of(plan, day, day.PlusDays(MostDays)).First().To;
        ClockStep clock = ClockStep.Of(zone, profile, day);
        LocalDate until = day;
        while (until < last && ClockStep.Of(zone, profile, until.PlusDays(1)) == clock)
        {
            until = until.PlusDays(1);
        }

        return until;
    }
}
