using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Power;
using Valvewright.Files.Measured;
using Valvewright.Files.Timelines;

namespace Valvewright.Work.Measured;

/// <summary>How long a measured battery lasts under a plan.</summary>
/// <param name="Demand">What empties it, and where each figure comes from.</param>
/// <param name="Life">How long it lasts, and when to change it.</param>
public sealed record BatteryForecast(BatteryDemand Demand, BatteryLife Life)
{
    /// <summary>Follows a battery through the plan's pulses and the site's usual year.</summary>
    public static BatteryForecast Of(Site site, Plan plan, MeasuredBattery battery, YearOfTemperatures temperatures)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(battery);
        BatteryDemand demand = DemandOf(site.ControllerNamed(battery.Controller).Profile.Power, battery);
        return new BatteryForecast(demand, BatteryLife.Of(demand, battery.Since, temperatures, Pulses(site, plan, battery)));
    }

    /// <summary>Pulses by date over one year of the timeline; later years are taken as that year.</summary>
    private static Func<LocalDate, double> Pulses(Site site, Plan plan, MeasuredBattery battery)
    {
        SiteWaterings year = SiteWaterings.Of(site, plan, battery.Since, battery.Since.PlusYears(1).PlusDays(-1), battery.Controller);
        ILookup<LocalDate, Watering> byDate = year.Waterings.ToLookup(w => w.Opens.InZone(site.Zone()).Date);
        return date =>
        {
            LocalDate same = date;
            while (same >= battery.Since.PlusYears(1)) same = same.PlusYears(-1);
            return 2 * byDate[same].Count();
        };
    }

    private static BatteryDemand DemandOf(PowerDemand? profile, MeasuredBattery battery)
    {
        UncertainInput left = battery.Volts is { } volts
            ? new BatteryReading(battery.Kind, volts, battery.LoadMilliamps, battery.TemperatureC).Left
            : new UncertainInput("charge at the start", 1, 0.03, false, "put in fresh");
        return new BatteryDemand(
            battery.Kind,
            Input("capacity", battery.CapacityMah, profile?.CapacityMah, battery.Kind.CapacityMah, 0.15, "mAh"),
            Input("standby current", battery.StandbyMicroamps, profile?.StandbyMicroamps, 30, 0.5, "microamps"),
            Input("charge of a pulse", battery.PulseMillicoulombs, profile?.PulseMillicoulombs, 55, 0.5, "mC; 0.5 J at 9 V"),
            Input("self-discharge", null, profile?.SelfDischargePerYear, battery.Kind.SelfDischargePerYear, 0.5,
                "of the capacity per year"),
            new UncertainInput("loss in the cold", 1, 0.3, true, "rule of thumb"),
            left);
    }

    private static UncertainInput Input(Sentence name, double? own, double? profile, double typical, double typicalOff, Sentence unit) =>
        own is { } mine ? new UncertainInput(name, mine, 0.1, false, $"your own, {unit}")
        : profile is { } known ? new UncertainInput(name, known, 0.2, false, $"the controller's profile, {unit}")
        : new UncertainInput(name, typical, typicalOff, true, $"TYPICAL, {unit}");
}
