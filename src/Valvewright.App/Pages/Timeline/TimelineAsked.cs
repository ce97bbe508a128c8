using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Files.Timelines;

namespace Valvewright.App.Pages.Timeline;

/// <summary>How a controller stands apart from the plan.</summary>
public enum Standing
{
    /// <summary>As planned.</summary>
    AsPlanned,

    /// <summary>Switched off from the first day on.</summary>
    Off,

    /// <summary>A rain delay begins on the first day.</summary>
    RainHold,

    /// <summary>Its clock is out.</summary>
    ClockOut,
}

/// <summary>What is asked of a timeline.</summary>
/// <param name="From">First date.</param>
/// <param name="Days">How many days, 1 to <see cref="Most"/>.</param>
/// <param name="Controller">One controller; null for all.</param>
/// <param name="Percent">Percent adjust as the person says; null: as planned.</param>
/// <param name="Standing">How the controllers stand.</param>
/// <param name="HoldDays">Days of rain delay.</param>
/// <param name="ClockMinutes">Minutes that the clock is ahead; negative: behind.</param>
public sealed record TimelineAsked(
    LocalDate From, int Days, string? Controller, int? Percent, Standing Standing, int HoldDays, int ClockMinutes)
{
    /// <summary>The most days that are followed at once.</summary>
    public const int Most = 400;

    /// <summary>Last date.</summary>
    public LocalDate To => From.PlusDays(Days - 1);

    /// <summary>What opens and closes when, through the emulator.</summary>
    public SiteWaterings Follow(Site site, Plan plan)
    {
        Plan asked = Percent is { } percent ? plan with { Controllers = plan.Controllers.Select(c => At(c, percent)).ToListOf() } : plan;
        return SiteWaterings.Of(site, asked, From, To, Controller, (device, told) => Standing switch
        {
            Standing.Off => told with { Off = [new OffSpell(From.AtMidnight(), null)] },
            Standing.RainHold => told with { RainHolds = [new RainHold(From.AtMidnight(), HoldDays)] },
            Standing.ClockOut => told with { ClockSetTo = told.ShowsAtFirst(device.Profile, site.Zone()).PlusMinutes(ClockMinutes) },
            _ => told,
        });
    }

    /// <summary>The date of the first opening after the last date; null where there is none within so many days as are followed at
    /// once.</summary>
    public LocalDate? NextOpening(Site site, Plan plan) =>
        (this with { From = To.PlusDays(1), Days = Most }).Follow(site, plan).Waterings is [{ } first, ..]
            ? first.Opens.InZone(site.Zone()).Date : null;

    /// <summary>The programs of the first date at one percent all the time.</summary>
    private ControllerPlan At(ControllerPlan plan, int percent) =>
        plan with { Settings = plan.SettingsOn(From) with { PercentAdjust = percent }, Visits = [] };
}
