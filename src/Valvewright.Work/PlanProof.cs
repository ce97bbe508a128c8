using Valvewright.Engine.Plans;
using Valvewright.Engine.Seedbeds;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;

namespace Valvewright.Work;

/// <summary>A plan to be proven.</summary>
/// <param name="Years">The site and its years.</param>
/// <param name="Plan">The plan, with its visits where it has any.</param>
/// <param name="From">First date of the calendar on which rules are checked.</param>
public sealed record ProofRequest(SiteYears Years, Plan Plan, LocalDate From)
{
    /// <summary>Another plan to show next to it; null for none.</summary>
    public Plan? Other { get; init; }
}

/// <summary>Replays a plan on the years that were not planned with.</summary>
public static class PlanProof
{
    /// <summary>The proof; a plan with visits is shown next to the same programs at one percent all season.</summary>
    public static ProofReport Of(ProofRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        (SiteYears years, Plan plan, LocalDate from) = request;
        years = years.AsOf(from);
        Plan constant = OnePercent.Of(plan);
        ProofOptions options = new(from, years.Training);
        if (constant != plan)
        {
            int visits = VisitDates.Of(years.Site, plan).Yearly.Count;
            options = options with
            {
                PlanName = visits == 1 ? "this plan, 1 visit" : $"this plan, {visits} visits",
                Beside = [new OtherWay("this plan, one percent all season", "one %", constant)],
            };
        }

        if (request.Other is { } other)
        {
            options = options with { Beside = [.. options.Beside, new OtherWay("the other plan", "other", other)] };
        }

        return Proofs.Replay(years.Site, plan, years.HeldBack, options);
    }
}
