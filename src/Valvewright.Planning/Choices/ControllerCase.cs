using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Planning.Choices;

/// <summary>Everything about one controller that the models need, worked out once.</summary>
internal sealed class ControllerCase
{
    public ControllerCase(Site site, SiteController controller, PlannerOptions options, LocalDate firstDate, ZoneMemory memory)
    {
        Controller = controller;
        Options = options;
        FirstDate = firstDate;
        Supply = site.SupplyNamed(controller.Supply);
        Stored = new StoredWater(Supply, options.StorageShare);
        ListOf<PermittedSpan> hours = PermittedSpan
            .Of(Supply.Permitted, PermittedSpan.ClockBehind(site, controller.Profile, firstDate), options.BothReadings);
        Offered = WaterDays.OfferedBy(controller.Profile, Supply.Permitted, hours, firstDate, options.LongestIntervalDays);
        Zones = [.. controller.Zones.Select(z => (Zone: z, Known: memory.Of(site, controller, z)))
            .Where(z => !z.Zone.Lasts || !z.Known.Depths.DoesWithout(UsefulDepth.GrossMm(z.Zone)))
            .Select(z => new ZoneCase(z.Zone, z.Known.Need, z.Known.Depths, this))];
        Season = IrrigationSeason.Of(Zones.Select(z => z.Need.Season));
    }

    public SiteController Controller { get; }

    public Profile Profile => Controller.Profile;

    public WaterSupply Supply { get; }

    /// <summary>What its tank and pump allow.</summary>
    public StoredWater Stored { get; }

    public ListOf<WaterDays> Offered { get; }

    public PlannerOptions Options { get; }

    /// <summary>The first date the plan is in force.</summary>
    public LocalDate FirstDate { get; }

    public IrrigationSeason Season { get; }

    /// <summary>The zones to be watered; those that rain and soil carry are left out.</summary>
    public IReadOnlyList<ZoneCase> Zones { get; }

    /// <summary>Permitted seconds of a watering day.</summary>
    public static int PermittedSecondsOf(WaterDays days) => days.Phases.Max(p => Math.Min(PermittedSpan.Day, p.Spans.Sum(s => s.Seconds)));

    public static int LongestSpanOf(WaterDays days) => days.Phases.Max(p => p.Spans.Max(s => s.Seconds));

    /// <summary>Fixed seconds that a run takes beside the stations' own: pump lead and lag.</summary>
    public int SecondsAroundARun => Profile.Pump is { } pump ? pump.LeadSeconds + pump.LagSeconds : 0;
}
