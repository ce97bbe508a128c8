namespace Valvewright.Records.Jobs;

/// <summary>What is asked for.</summary>
/// <param name="Kind">plan, proof or season.</param>
/// <param name="Plan">The plan to prove, or to find visits for; season without a plan chooses programs and visits together.</param>
/// <param name="From">plan, season without a plan: the first date on which it is in force; today at the site when not given.</param>
/// <param name="Visits">season: visits a year, 1 to 12; plan: 0 to 12, where 0 is programs that stay as they are set. 4 when not
/// given.</param>
/// <param name="Wishes">season, plan with visits: when visits can be made, and what counts.</param>
public sealed record JobRequest(string Kind, Guid? Plan = null, LocalDate? From = null, int? Visits = null, SeasonWishes? Wishes = null);
