using System.Text.Json;
using Valvewright.Engine.Values;

namespace Valvewright.Files.Plans;

/// <summary>What a plan's proof comes to.</summary>
/// <param name="Passed">Whether the plan passes.</param>
/// <param name="Breaches">How many rules it breaks.</param>
/// <param name="Short">Zones that get too little, with their controllers.</param>
public sealed record PlanVerdict(bool Passed, int Breaches, ListOf<(string Controller, string Zone)> Short)
{
    /// <summary>Reads no more of a proof than its verdict: a card is not to wait for the years that it rests on.</summary>
    /// <param name="proof">The proof as JSON; empty where there is none.</param>
    public static PlanVerdict? Read(ReadOnlyMemory<byte> proof)
    {
        if (proof.IsEmpty)
        {
            return null;
        }

        using JsonDocument read = JsonDocument.Parse(proof);
        return read.RootElement.ValueKind != JsonValueKind.Object || !read.RootElement.TryGetProperty("verdict", out JsonElement verdict)
            ? null : new PlanVerdict(
            Is(verdict, "rulesKept") && Is(verdict, "zonesServed"),
            read.RootElement.TryGetProperty("breaches", out JsonElement breaches) ? breaches.GetArrayLength() : 0,
            read.RootElement.TryGetProperty("zones", out JsonElement zones)
                ? zones.EnumerateArray()
                    .Where(z => z.TryGetProperty("isServed", out JsonElement served) && served.ValueKind == JsonValueKind.False)
                    .Select(z => (z.GetProperty("controller").GetString()!, z.GetProperty("zone").GetString()!)).ToListOf()
                : []);
    }

    /// <summary>The same of a proof as text; null where there is none.</summary>
    public static PlanVerdict? Read(string? proof) => proof is null ? null : Read(System.Text.Encoding.UTF8.GetBytes(proof));

    private static bool Is(JsonElement verdict, string name) =>
        verdict.TryGetProperty(name, out JsonElement value) && value.ValueKind == JsonValueKind.True;
}
