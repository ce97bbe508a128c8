using System.Text.Json.Serialization;
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
/// <param name="Settings"> What is set. Run times are for the largest percent of the year, so that the supply and the hours always carry
/// it. Visits may bring other programs in its place (<see cref="Visit.Programs"/>).
/// </param>
/// <param name="Visits">
/// The visits of the year by rising date, each with the percent it leaves; a visit that leaves it off has percent 0.
/// The last visit's setting holds over the new year until the first. None: on all year at the settings' percent.
/// </param>
public sealed record ControllerPlan(string Controller, Settings Settings, ListOf<Visit> Visits)
{
    /// <summary>Whether a visit changes more than the percent.</summary>
    [JsonIgnore]
    public bool ChangesPrograms => Visits.Any(v => v.Programs is not null);

    /// <summary>Every set of programs that it holds at some time of the year, each once: the settings' own first, then visit by
    /// visit.</summary>
    [JsonIgnore]
    public ListOf<ListOf<Program>> ProgramSets =>
        Visits.Select(v => v.Programs).OfType<ListOf<Program>>().Prepend(Settings.Programs).Distinct().ToListOf();

    /// <summary>The programs that stand after a visit: those that it brings, or that the last visit brought before it, over the new year if
    /// need be.</summary>
    /// <param name="visit">Index of the visit.</param>
    public ListOf<Program> ProgramsAfter(int visit)
    {
        for (int back = 0; back < Visits.Count; back++)
        {
            if (Visits[(visit - back + Visits.Count) % Visits.Count].Programs is { } brought)
            {
                return brought;
            }
        }

        return Settings.Programs;
    }

    /// <summary>The date of the first visit on or after a date; null where the plan has no visits.</summary>
    public LocalDate? NextVisit(LocalDate today) => Visits.Count == 0 ? null
        : Visits.Select(v => v.Date.InYear(today.Year) is var date && date >= today ? date : v.Date.InYear(today.Year + 1)).Min();

    /// <summary>The date of the latest planned visit that nobody has made; null where none is overdue.</summary>
    /// <param name="today">The date at the site.</param>
    /// <param name="from">The plan's first date: no visit before it counts.</param>
    /// <param name="last">The date of the last visit on record; null where there is none.</param>
    public LocalDate? OverdueVisit(LocalDate today, LocalDate from, LocalDate? last) => Visits
        .Select(v => v.Date.InYear(today.Year) is var date && date <= today ? date : v.Date.InYear(today.Year - 1))
        .Where(d => d >= from).Select(d => (LocalDate?)d).Max() is { } planned
            && (last is null || last < planned.PlusDays(-Visit.SlackDays)) ? planned : null;

    /// <summary>The programs in force on a date.</summary>
    public ListOf<Program> ProgramsOn(LocalDate date) => Spell.Of(this, date, date).Single().SettingsOf(this).Programs;

    /// <summary>What is set on a date: the programs then, and the percent. Where it is off then, the settings' own
    /// percent.</summary>
    public Settings SettingsOn(LocalDate date)
    {
        Spell spell = Spell.Of(this, date, date).Single();
        Settings then = spell.SettingsOf(this);
        return spell.Percent == 0 ? then with { PercentAdjust = Settings.PercentAdjust } : then;
    }
}

/// <summary>A visit to a controller and how it is left.</summary>
/// <param name="Date">Day of the year.</param>
/// <param name="Percent">Percent adjust from then on; 0 means off.</param>
/// <param name="Programs">All programs from then on, where the visit sets other ones; null where they stay as they are.</param>
public sealed record Visit(
    AnnualDate Date, int Percent, [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] ListOf<Program>? Programs = null)
{
    /// <summary>A trip so many days ahead of a visit's date still counts as that visit: visits are planned on a grid of weeks.</summary>
    public const int SlackDays = 7;
}
