using NodaTime;

namespace Valvewright.Records.Jobs;

/// <summary>What is asked for.</summary>
/// <param name="Kind">plan, proof or season.</param>
/// <param name="Plan">The plan to prove, or to find visits for.</param>
/// <param name="From">plan: the first date on which it is in force; today at the site when not given.</param>
/// <param name="Visits">season: visits a year, 1 to 12.</param>
public sealed record JobRequest(string Kind, Guid? Plan = null, LocalDate? From = null, int? Visits = null);
