using Valvewright.Records.Views;

namespace Valvewright.Records.Carrying;

/// <summary>All that a page needs to work on a site where there is no signal, in one answer.</summary>
/// <param name="Site">The site: survey as written and as understood, questions, assumptions.</param>
/// <param name="Weather">Its weather, ready for the engine; null where there is none that can be used, and
/// <paramref name="WeatherProblem"/> says why.</param>
/// <param name="WeatherProblem">Why there is no weather.</param>
/// <param name="Plans">Its plans with their proofs, the latest first.</param>
/// <param name="Readings">Its readings, those made first first.</param>
/// <param name="Visits">Its visits, those made first first; photos are named, not held.</param>
public sealed record CarryView(
    SiteView Site, CarriedWeather? Weather, ProblemDocument? WeatherProblem, ListOf<PlanView> Plans,
        ListOf<RecordView<ReadingValue>> Readings, ListOf<VisitView> Visits)
{
    /// <summary>Its traces of faults, those made first first.</summary>
    public ListOf<RecordView<TraceValue>> Traces { get; init; } = [];

    /// <summary>Causes that repairs confirmed at any site of the store, one for each trace: what the weights of a trace learn
    /// from.</summary>
    public ListOf<string> ConfirmedCauses { get; init; } = [];
}
