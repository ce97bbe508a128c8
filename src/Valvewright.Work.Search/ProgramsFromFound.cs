using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Files.Problems;
using Valvewright.Planning;
using Valvewright.Planning.Changes;

namespace Valvewright.Work.Search;

/// <summary>Programs that a site has, to be made better with few changed settings.</summary>
/// <param name="Years">The site and its years.</param>
/// <param name="From">First date on which the result is in force.</param>
/// <param name="Found">What every controller holds.</param>
/// <param name="Changes">The most settings to change; null: the fewest that save most of what all would.</param>
public sealed record ChangeRequest(SiteYears Years, LocalDate From, Plan Found, int? Changes);

/// <summary>Programs that a site has, proven, and the best within few changed settings, proven too.</summary>
/// <param name="Years">The site and its years.</param>
/// <param name="FoundProof">The proof of what was found.</param>
/// <param name="Search">What each further change saves; null where no change was asked for.</param>
/// <param name="Chosen">What to set: the best within the changes asked for; null where nothing within them keeps every rule.</param>
/// <param name="Proof">Its proof; null without it.</param>
public sealed record ProgramsFromFound(SiteYears Years, ProofReport FoundProof, ProgramChanges? Search, ChangedPrograms? Chosen,
    ProofReport? Proof)
{
    /// <summary>More changes than any site has settings.</summary>
    private const int All = 999;

    /// <summary>Proves what was found and looks for better.</summary>
    /// <exception cref="RefusalException">The record holds no whole years, or the plan's visits bring programs of their own.</exception>
    public static ProgramsFromFound Of(ChangeRequest request, WorkProgress progress, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(progress);
        (SiteYears years, LocalDate from, Plan found, int? changes) = request;
        progress("Proving what was found", 0);
        ProofReport before = PlanProof.Of(new ProofRequest(years, found, from));
        if (changes == 0)
        {
            return new ProgramsFromFound(years, before, null,
                new ChangedPrograms([], found, double.NaN, double.NaN, double.NaN, before.Breaches.Count == 0), before);
        }

        VisitSearch.RequireWholeYears(years.Training);
        if (found.Controllers.FirstOrDefault(c => c.ChangesPrograms) is { } changing)
        {
            throw new RefusalException(new Refusal.WrongRequest([new Problem(
                changing.Controller, 0, 0, "visits that set other programs", "visits that set percents alone, or --changes 0", null,
                    "few changes are found for programs that stay all year")]));
        }

        progress("Planning from nothing, to compare with", 0.1);
        PlannerOptions options = new() { InForceFrom = from, PercentOn = (controller, date) => PercentOf(found, controller, date) };
        Plan? replanned = Planner.Plan(years.Site, years.Training, options, null, cancel).Plan;
        ProgramChanges search = ChangeSearch.Of(
            years.Site, found, replanned, years.Training, from, changes ?? All,
            n => progress(n == 1 ? "Trying 1 changed setting" : (Sentence)$"Trying {n} changed settings",
                Math.Min(0.9, 0.4 + (0.04 * n))), cancel);
        ChangedPrograms? chosen = changes is { } most ? search.Within(most) : search.Fewest;
        progress("Proving", 0.9);
        return new ProgramsFromFound(years, before, search, chosen, chosen is null ? null
            : PlanProof.Of(new ProofRequest(years, chosen.Plan, from)));
    }

    /// <summary>The percent that the visits set; without visits run times are planned for 100.</summary>
    private static double? PercentOf(Plan plan, string controller, LocalDate date)
    {
        ControllerPlan own = plan.For(controller);
        return own.Visits.Count == 0 ? 100 : Spell.Of(own, date, date).First().Percent;
    }
}
