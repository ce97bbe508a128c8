using System.Text.Json;
using Valvewright.Records.Jobs;

namespace Valvewright.Records.Views;

/// <summary>A plan in a list.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Version">Its version.</param>
/// <param name="Changed">Who saved it, and when.</param>
/// <param name="From">The first date on which it is in force.</param>
/// <param name="FitsSurvey">Whether it was made for the survey as it stands.</param>
/// <param name="HasProof">Whether its proof is kept with it.</param>
public sealed record PlanLine(Guid Id, long Version, Stamp Changed, LocalDate From, bool FitsSurvey, bool HasProof);

/// <summary>A plan with its proof.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Version">Its version.</param>
/// <param name="Changed">Who saved it, and when.</param>
/// <param name="From">The first date on which it is in force.</param>
/// <param name="FitsSurvey">Whether it was made for the survey as it stands.</param>
/// <param name="Plan">The content of the plan's file.</param>
/// <param name="Proof">Its proof (<c>ProofReport</c>); null where there is none.</param>
/// <param name="Season">How its visits were found, and what more or fewer of them are worth; null where they were not.</param>
public sealed record PlanView(
    Guid Id, long Version, Stamp Changed, LocalDate From, bool FitsSurvey, JsonElement Plan, JsonElement? Proof, SeasonKept? Season);
