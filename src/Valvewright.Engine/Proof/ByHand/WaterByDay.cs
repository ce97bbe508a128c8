using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof.Water;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Proof.ByHand;

/// <summary>Water on each station day by day, mm; first the days before a year, which set the soil's store.</summary>
/// <param name="GrossMm">What is applied.</param>
/// <param name="NetMm">What of it does not run off.</param>
internal sealed record StationWater(double[][] GrossMm, double[][] NetMm);

/// <summary>The water that a controller's programs bring each of its zones in a year of record.</summary>
/// <param name="zone">The site's time zone.</param>
internal sealed class WaterByDay(DateTimeZone zone)
{
    /// <summary>Settings that are remembered: those of a plan's visits, before and after a touch.</summary>
    private const int MostRemembered = 64;

    private readonly Dictionary<(string Controller, Settings Settings), SettingsByDate> known = [];

    /// <summary>The water of a year.</summary>
    public StationWater Of(SiteController controller, ControllerPlan plan, Climate year)
    {
        LocalDate begun = (year.Before ?? year).First;
        int lead = year.Before?.Days ?? 0, first = SiteDays.Of(year.First) - lead;
        int stations = controller.Zones.Count == 0 ? 0 : controller.Zones.Max(z => z.Station) + 1;
        StationWater water = new(new double[stations][], new double[stations][]);
        foreach (Zone planted in controller.Zones)
        {
            water.GrossMm[planted.Station] = new double[lead + year.Days];
            water.NetMm[planted.Station] = new double[lead + year.Days];
        }

        foreach (Spell spell in Spell.Of(plan, begun.PlusDays(-1), year.Last).Where(Watered.IsOn))
        {
            SettingsOf(controller, plan, spell).AddTo(water, spell, first);
        }

        return water;
    }

    private SettingsByDate SettingsOf(SiteController controller, ControllerPlan plan, Spell spell)
    {
        Settings settings = Watered.SettingsOf(plan, spell);
        if (!known.TryGetValue((controller.Name, settings), out SettingsByDate? byDate))
        {
            if (known.Count >= MostRemembered)
            {
                known.Clear();
            }

            known[(controller.Name, settings)] = byDate = new SettingsByDate(zone, controller, settings);
        }

        return byDate;
    }
}
