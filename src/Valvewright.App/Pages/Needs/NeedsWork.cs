using Valvewright.App.Shelf;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Weather;

namespace Valvewright.App.Pages.Needs;

/// <summary>Works out the needs of a site zone by zone, so that the page can be used meanwhile; keeps what it has found for this version of
/// the site.</summary>
public sealed class NeedsWork
{
    private readonly Dictionary<(string Controller, int Station), ZoneWeeks> found = [];
    private (Guid Id, string ETag) of;
    private ListOf<Climate> training = [];
    private Site? inAir;

    /// <summary>What was found before; null where it has not been worked out.</summary>
    public ZoneWeeks? Known(OpenedSite site, SiteController controller, Zone zone)
    {
        return of == (site.Id, site.Carried.ETag) ? found.GetValueOrDefault((controller.Name, zone.Station)) : null;
    }

    /// <summary>The needs of one zone, from the years that plans are made with.</summary>
    /// <exception cref="InvalidOperationException">The site has no weather.</exception>
    public ZoneWeeks Of(OpenedSite site, SiteController controller, Zone zone)
    {
        if (Known(site, controller, zone) is { } known)
        {
            return known;
        }

        if (of != (site.Id, site.Carried.ETag))
        {
            found.Clear();
            of = (site.Id, site.Carried.ETag);
            training = site.Weather?.Training() ?? throw new InvalidOperationException("The site has no weather.");
            inAir = site.Site.In(training);
        }

        SiteController own = inAir!.ControllerNamed(controller.Name);
        ZoneWeeks weeks = ZoneWeeks.Of(ZoneNeeds.Of(inAir!, own, own.ZoneAt(zone.Station), training), training);
        found[(controller.Name, zone.Station)] = weeks;
        return weeks;
    }
}
