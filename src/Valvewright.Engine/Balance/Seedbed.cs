using NodaTime;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Values;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Balance;

/// <summary>A seedbed holds less than a day's use, so its balance goes by the hour, and only while it is one.</summary>
public static class Seedbed
{
    /// <summary>How long a seedbed is watered as one: common practice, the 30 days that watering rules usually grant new lawns.</summary>
    public const int Days = 30;

    /// <summary>Whether a zone is one.</summary>
    public static bool IsOne(Zone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return zone.Planting.Stage == PlantStage.NewlySeeded;
    }

    /// <summary>The dates of the year in which a seedbed is one; null when it is none or the sowing date is not known.</summary>
    public static PeriodOfYear? DatesOf(Zone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        if (!IsOne(zone) || zone.Planting.Since is not { } sown)
        {
            return null;
        }

        LocalDate last = sown.PlusDays(Days - 1);
        return new PeriodOfYear(new AnnualDate(sown.Month, sown.Day), new AnnualDate(last.Month, last.Day));
    }

    /// <summary>
    /// The days after sowing in each year of weather; the climates themselves when the date is not known. Years that hold all of these days
    /// go before years that hold a part of them, which serve only where there are no others.
    /// </summary>
    public static IReadOnlyList<Climate> WindowsOf(Zone zone, IReadOnlyList<Climate> climates)
    {
        ArgumentNullException.ThrowIfNull(climates);
        if (DatesOf(zone) is not { } dates)
        {
            return climates;
        }

        List<Climate> windows = [];
        foreach (Climate climate in climates)
        {
            for (int year = climate.First.Year - 1; year <= climate.Last.Year; year++)
            {
                LocalDate from = dates.From.InYear(year);
                LocalDate first = LocalDate.Max(from, climate.First), last = LocalDate.Min(from.PlusDays(Days - 1), climate.Last);
                if (first <= last)
                {
                    windows.Add(climate.Between(first, last));
                }
            }
        }

        List<Climate> whole = [.. windows.Where(w => w.Days == Days)];
        return whole.Count > 0 ? whole : windows;
    }

    /// <summary>Hours of a climate as a seedbed feels them: use follows the sun, rain falls evenly over its day.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="place">Where.</param>
    /// <param name="clockHours">What the controller's clock is ahead of universal time, h, without daylight saving.</param>
    /// <param name="climate">The weather.</param>
    public static ZoneDays HoursOf(Zone zone, Place place, double clockHours, Climate climate)
    {
        ArgumentNullException.ThrowIfNull(climate);
        return ZoneDays.Of(zone, climate)
            .ByHour(RootZone.Of(zone), DaylightSpread.Hours, (date, shares) => DaylightSpread.Fill(place, date, clockHours, shares));
    }

    /// <summary>What a site's clocks without daylight saving are ahead of universal time, h.</summary>
    public static double ClockHoursOf(Site site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return Controllers.StandardTime.OffsetAt(site.Zone(), Instant.FromUtc(2024, 1, 1, 0, 0)).Seconds / 3600.0;
    }
}
