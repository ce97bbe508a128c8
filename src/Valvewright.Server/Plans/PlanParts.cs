using System.Text.Json;
using Valvewright.Records;
using Valvewright.Records.Jobs;
using Valvewright.Server.Problems;

namespace Valvewright.Server.Plans;

/// <summary>What is kept beside a plan and did not come from a job of this server.</summary>
internal static class PlanParts
{
    /// <summary>Refuses a proof or a season that is none.</summary>
    public static void Require(PlanValue plan)
    {
        try
        {
            _ = plan.Proof is null ? default : JsonSerializer.Deserialize<JsonElement>(plan.Proof);
            _ = plan.Season is null ? null : Json.Read<SeasonKept>(plan.Season);
        }
        catch (Exception wrong) when (
            wrong
                is JsonException or NodaTime.Text.UnparsableValueException or ArgumentException or NotSupportedException or InvalidOperationException)
        {
            throw Refusal.Garbled("a plan", wrong.Message, "a proof or a season as it was kept",
                "What is saved with a plan cannot be understood. Nothing was stored.");
        }
    }
}
