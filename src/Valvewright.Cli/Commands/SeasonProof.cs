using NodaTime;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;

namespace Valvewright.Cli.Commands;

/// <summary>How a plan that may have visits is proven: beside itself without them.</summary>
internal static class SeasonProof
{
    public static ProofOptions Options(SiteInputs inputs, Plan plan, LocalDate from)
    {
        Plan constant = OnePercent.Of(plan);
        ProofOptions options = new(from, inputs.Training);
        return constant == plan
            ? options
            : options with
            {
                PlanName = $"this plan, {VisitWords.Count(SeedbedVisits.OthersIn(inputs.Site, plan))}",
                Beside = [new OtherWay("this plan, one percent all season", "one %", constant)],
            };
    }
}
