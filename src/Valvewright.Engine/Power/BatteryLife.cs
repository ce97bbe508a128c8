using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Power;

/// <summary>The temperatures of a usual year at the site, by day of the year.</summary>
/// <param name="MeanC">Mean of the day, 366 values.</param>
/// <param name="LowestC">Lowest of the day, 366 values.</param>
public sealed record YearOfTemperatures(ListOf<double> MeanC, ListOf<double> LowestC)
{
    /// <summary>A year of one temperature.</summary>
    public static YearOfTemperatures Steady(double temperatureC) =>
        new(Enumerable.Repeat(temperatureC, 366).ToListOf(), Enumerable.Repeat(temperatureC, 366).ToListOf());

    /// <summary>Means by day of the year over all days of a record that have both temperatures, smoothed over 15 days; null where too few
    /// have.</summary>
    public static YearOfTemperatures? Of(IEnumerable<(LocalDate Date, double LowestC, double HighestC)> days)
    {
        double[] low = new double[366], mean = new double[366];
        int[] count = new int[366];
        foreach ((LocalDate date, double lowest, double highest) in days)
        {
            if (!double.IsFinite(lowest + highest)) continue;
            for (int near = -7; near <= 7; near++)
            {
                int at = (date.DayOfYear - 1 + near + 366) % 366;
                low[at] += lowest;
                mean[at] += (lowest + highest) / 2;
                count[at]++;
            }
        }

        return count.Min() < 10
            ? null
            : new YearOfTemperatures(mean.Zip(count, (sum, n) => sum / n).ToListOf(), low.Zip(count, (sum, n) => sum / n).ToListOf());
    }
}

/// <summary>What empties a battery.</summary>
/// <param name="Battery">The kind of battery.</param>
/// <param name="CapacityMah">Its usable capacity at 20 C.</param>
/// <param name="StandbyMicroamps">What the controller takes all the time.</param>
/// <param name="PulseMillicoulombs">Charge of one pulse to a latching coil.</param>
/// <param name="SelfDischargePerYear">Share of the capacity lost per year at 20 C.</param>
/// <param name="ColdShare">How much of the loss of capacity in the cold is counted: 1 as in the table.</param>
/// <param name="ShareAtStart">What was left when it was put in or read, 0 to 1.</param>
public sealed record BatteryDemand(
    BatteryType Battery, UncertainInput CapacityMah, UncertainInput StandbyMicroamps, UncertainInput PulseMillicoulombs,
    UncertainInput SelfDischargePerYear, UncertainInput ColdShare, UncertainInput ShareAtStart)
{
    internal ListOf<UncertainInput> Inputs =>
        [CapacityMah, StandbyMicroamps, PulseMillicoulombs, SelfDischargePerYear, ColdShare, ShareAtStart];
}

/// <summary>How long a battery lasts, and when to change it.</summary>
/// <param name="Days">Days until it is empty, with their range; at most <see cref="MostDays"/>.</param>
/// <param name="EmptyOn">The date in the middle of the range.</param>
/// <param name="ChangeBy">The date to change it by.</param>
/// <param name="Reasons">Why that date and not the one in the middle.</param>
/// <param name="PulsesPerYear">Pulses in the first year.</param>
/// <param name="Shares">Where the charge of the first year goes, mAh: standby, pulses, self-discharge.</param>
public sealed record BatteryLife(
    ResultRange Days, LocalDate EmptyOn, LocalDate ChangeBy, ListOf<Sentence> Reasons, double PulsesPerYear, BatteryYear Shares)
{
    /// <summary>No one should rely on a battery longer: five years.</summary>
    public const int MostDays = 5 * 365;

    private const double CoulombsPerMah = 3.6;
    private const double DaysPerYear = 365.25;

    /// <summary>Follows a battery day by day.</summary>
    /// <remarks>
    /// A day takes standby, its pulses and self-discharge, which doubles with every 10 C (rule of thumb). The battery fails on the first
    /// day on which what was taken exceeds what can be had at the day's lowest temperature: so it fails in the cold first.
    /// </remarks>
    /// <param name="demand">What empties it.</param>
    /// <param name="start">The date it was put in, or read.</param>
    /// <param name="temperatures">The site's usual year.</param>
    /// <param name="pulsesOn">Pulses that the timeline makes on a date.</param>
    public static BatteryLife Of(BatteryDemand demand, LocalDate start, YearOfTemperatures temperatures, Func<LocalDate, double> pulsesOn)
    {
        ArgumentNullException.ThrowIfNull(demand);
        ArgumentNullException.ThrowIfNull(temperatures);
        ArgumentNullException.ThrowIfNull(pulsesOn);
        double[] pulses = [.. Enumerable.Range(0, MostDays).Select(day => pulsesOn(start.PlusDays(day)))];
        int[] ofYear = [.. Enumerable.Range(0, MostDays).Select(day => start.PlusDays(day).DayOfYear - 1)];
        ResultRange days = ResultRange.Of(demand.Inputs, v => Lasts(demand.Battery, v, temperatures, pulses, ofYear));
        LocalDate empty = start.PlusDays((int)days.Value);
        LocalDate earliest = start.PlusDays((int)days.Low);
        List<Sentence> reasons =
            [$"The inputs leave a range from {Text(earliest)} to {Text(start.PlusDays((int)days.High))}; the early end counts."];
        int lead = Math.Min(30, (int)(days.Low / 10));
        if (lead > 0) reasons.Add($"{lead} days earlier, because a visit is not always possible on the day.");
        LocalDate change = earliest.PlusDays(-lead);
        if (days.Value >= MostDays) reasons.Add("Five years at most: an old battery leaks.");
        if (days.RestsOnTypicalValues) reasons.Add("Typical values are in use; your own data would narrow the range.");
        double[] values = [.. demand.Inputs.Select(i => i.Value)];
        return new BatteryLife(days, empty, change, reasons.ToListOf(), pulses.Take(365).Sum(), Year(values, temperatures, pulses, ofYear));
    }

    private static double Lasts(BatteryType battery, double[] v, YearOfTemperatures temperatures, double[] pulses, int[] ofYear)
    {
        (double capacity, double standby, double pulse, double self, double cold, double atStart) =
            (v[0], v[1], v[2], v[3], v[4], Math.Min(1, v[5]));
        double taken = (1 - atStart) * capacity;
        for (int day = 0; day < pulses.Length; day++)
        {
            taken += (standby * 24 / 1000) + (pulses[day] * pulse / 1000 / CoulombsPerMah) + SelfDischarge(
                capacity, self, temperatures.MeanC[ofYear[day]]);
            double share = 1 - (cold * (1 - battery.ShareAt(temperatures.LowestC[ofYear[day]])));
            if (taken >= capacity * Math.Max(0, share)) return day;
        }

        return pulses.Length;
    }

    private static BatteryYear Year(double[] v, YearOfTemperatures temperatures, double[] pulses, int[] ofYear) => new(
        v[1] * 24 / 1000 * 365,
        pulses.Take(365).Sum() * v[2] / 1000 / CoulombsPerMah,
        ofYear.Take(365).Sum(day => SelfDischarge(v[0], v[3], temperatures.MeanC[day])));

    private static double SelfDischarge(double capacity, double perYear, double temperatureC) =>
        capacity * perYear / DaysPerYear * Math.Pow(2, (temperatureC - 20) / 10);

    private static string Text(LocalDate date) => NodaTime.Text.LocalDatePattern.Iso.Format(date);
}

/// <summary>What a year takes from a battery, mAh.</summary>
/// <param name="StandbyMah">The controller at rest.</param>
/// <param name="PulsesMah">Pulses to the coils.</param>
/// <param name="SelfDischargeMah">The battery by itself.</param>
public sealed record BatteryYear(double StandbyMah, double PulsesMah, double SelfDischargeMah);
