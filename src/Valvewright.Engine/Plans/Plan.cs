using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Plans;

/// <summary>The programs for all controllers of a site.</summary>
/// <param name="Site">The site's name.</param>
/// <param name="Controllers">One entry a controller, in the survey's order.</param>
public sealed record Plan(string Site, ListOf<ControllerPlan> Controllers)
{
    /// <summary>The plan of the controller of that name.</summary>
    /// <exception cref="KeyNotFoundException">No controller has the name.</exception>
    public ControllerPlan For(string controller) =>
        Controllers.FirstOrDefault(c => c.Controller == controller)
        ?? throw new KeyNotFoundException($"The plan has no controller named '{controller}'.");
}

/// <summary>What one controller holds, and when in the year it is on.</summary>
/// <param name="Controller">The controller's name.</param>
/// <param name="Settings">What is keyed in. Run times are for the largest percent of the year, so that the supply and the hours always carry it.</param>
/// <param name="Visits">
/// The visits of the year by rising date, each with the percent it leaves; a visit that leaves it off has percent 0.
/// The last visit's setting holds over the new year until the first. None: on all year at the settings' percent.
/// </param>
public sealed record ControllerPlan(string Controller, Settings Settings, ListOf<Visit> Visits);

/// <summary>A visit to a controller and the percent it is left at.</summary>
/// <param name="Date">Day of the year.</param>
/// <param name="Percent">Percent adjust from then on; 0 means off.</param>
public sealed record Visit(AnnualDate Date, int Percent);
