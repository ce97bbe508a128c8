using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Planning.Choices;

/// <summary>Everything about one controller that the models need, worked out once.</summary>
internal sealed class ControllerCase
{
    public ControllerCase(Site site, SiteController controller, IReadOnlyList<Climate> training, PlannerOptions options, LocalDate firstDate)
    {
        Controller = controller;
        Supply = site.SupplyNamed(controller.Supply);
        ListOf<PermittedSpan> hours = PermittedSpan.Of(Supply.Permitted, PermittedSpan.ClockBehind(site, controller.Profile, firstDate));
        Offered = WaterDays.OfferedBy(controller.Profile, Supply.Permitted, hours, firstDate, options.LongestIntervalDays);
        AnyHours = PermittedSpan.Of(PermittedTimes.Always, [0]);
        ZoneNeed[] needs = [.. controller.Zones.Select(z => ZoneNeeds.Of(site, controller, z, training))];
        Season = IrrigationSeason.Of(needs.Select(n => n.Season));
        Zones = [.. controller.Zones.Select((z, i) => new ZoneCase(z, needs[i], this, training, options))];
    }

    public SiteController Controller { get; }

    public Profile Profile => Controller.Profile;

    public WaterSupply Supply { get; }

    public ListOf<WaterDays> Offered { get; }

    /// <summary>The whole day: for drip where it is exempt from the permitted hours.</summary>
    public ListOf<PermittedSpan> AnyHours { get; }

    public IrrigationSeason Season { get; }

    public IReadOnlyList<ZoneCase> Zones { get; }

    /// <summary>Permitted seconds of a water day.</summary>
    public static int PermittedSecondsOf(WaterDays days) => days.Phases.Max(p => Math.Min(PermittedSpan.Day, p.Spans.Sum(s => s.Seconds)));

    public static int LongestSpanOf(WaterDays days) => days.Phases.Max(p => p.Spans.Max(s => s.Seconds));

    /// <summary>Fixed seconds that a run takes beside the stations' own: pump lead and lag.</summary>
    public int SecondsAroundARun => Profile.Pump is { } pump ? pump.LeadSeconds + pump.LagSeconds : 0;
}
