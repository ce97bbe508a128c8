using System.Text.Json.Serialization;

namespace Valvewright.Records.Jobs;

/// <summary>What is asked for.</summary>
/// <param name="Kind">plan, proof, season or found.</param>
/// <param name="Plan">The plan to prove, or to find visits for; season without a plan chooses programs and visits together. found: the plan
/// whose programs the site has, or those of the controllers that were not read.</param>
/// <param name="From">plan, found, season without a plan: the first date on which it is in force; today at the site when not given.</param>
/// <param name="Visits">season: visits a year, 1 to 12; plan: 0 to 12, where 0 is programs that stay as they are set. 4 when not
/// given.</param>
/// <param name="Wishes">season, plan with visits: when visits can be made, and what counts.</param>
public sealed record JobRequest(string Kind, Guid? Plan = null, LocalDate? From = null, int? Visits = null, SeasonWishes? Wishes = null)
{
    /// <summary>found: what was read, a reading for each controller; null: the site has the programs of the plan.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public ListOf<FoundReading>? Read { get; init; }

    /// <summary>found: the most settings to change, 0 to 999; 0 proves what is there. When not given: the fewest that save nine tenths of
    /// what all would.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public int? Changes { get; init; }
}
