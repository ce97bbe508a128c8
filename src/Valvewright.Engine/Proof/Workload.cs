using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Proof.Water;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Proof;

/// <summary>What a year asks of a controller.</summary>
/// <param name="Controller">Its name.</param>
/// <param name="HoursPerYear">Hours with a station open, mean of the years checked; stations beside each other count each.</param>
/// <param name="BusiestDay">The date, by site time, with most hours; null when it never waters.</param>
/// <param name="HoursOnBusiestDay">Hours with a station open that opened on that date.</param>
/// <param name="PulsesPerYear">Pulses to its latching solenoids: one opens, one closes.</param>
/// <param name="BatteryMahPerYear">What pulses and standby take from its battery; NaN where its demand is not known.</param>
public sealed record Workload(
    string Controller, double HoursPerYear, LocalDate? BusiestDay, double HoursOnBusiestDay, double PulsesPerYear, double BatteryMahPerYear)
{
    private const double HoursInAYear = 365.25 * 24;

    internal static Workload Of(DateTimeZone zone, SiteController controller, IReadOnlyList<Opening> openings, double years)
    {
        SiteDays days = new(zone);
        var busiest = openings
            .GroupBy(o => days.Of(o.OpensUnix))
            .Select(g => (Date: g.Key, Seconds: g.Sum(o => o.ClosesUnix - o.OpensUnix)))
            .OrderByDescending(d => d.Seconds).ThenBy(d => d.Date)
            .FirstOrDefault();
        double pulses = 2 * openings.Count / years;
        double mah = controller.Profile.Power is { } power
            ? (pulses * power.PulseMillicoulombs / 3600) + (power.StandbyMicroamps / 1000 * HoursInAYear)
            : double.NaN;
        return new Workload(
            controller.Name,
            openings.Sum(o => o.ClosesUnix - o.OpensUnix) / 3600.0 / years,
            openings.Count == 0 ? null : SiteDays.DateOf(busiest.Date),
            busiest.Seconds / 3600.0,
            pulses,
            mah);
    }
}
