using Valvewright.Engine.Checks;
using Valvewright.Engine.Checks.Seen;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;

namespace Valvewright.Work;

/// <summary>What was read off a controller or seen there, to be judged.</summary>
/// <param name="Site">The survey.</param>
/// <param name="Controller">The controller.</param>
/// <param name="Plan">The plan; null: the reading is judged by itself.</param>
/// <param name="Read">What was read.</param>
/// <param name="Seen">What was seen; null where nothing was said.</param>
/// <param name="At">Site time of the reading.</param>
/// <param name="Language">Language of the answer.</param>
public sealed record CheckRequest(
    Site Site, SiteController Controller, Plan? Plan, ReadText Read, ListOf<Observation>? Seen, LocalDateTime At, CheckLanguage Language)
{
    /// <summary>The site's years, to judge the water of what was read; null: it is not judged.</summary>
    public SiteYears? Years { get; init; }
}

/// <summary>One stretch of a check.</summary>
/// <param name="Done">How much is done, 0 to 1.</param>
/// <param name="Report">The report; null before the last step.</param>
public sealed record CheckProgress(double Done, CheckReport? Report);

/// <summary>What is wrong with a controller.</summary>
/// <param name="Check">What is wrong with the reading.</param>
/// <param name="Symptoms">What explains what was seen; null where nothing was said.</param>
public sealed record CheckReport(CheckResult Check, SymptomResult? Symptoms)
{
    /// <summary>The controller's zones over years of record under what was read; null where that is not judged, or not all was
    /// read.</summary>
    public ListOf<Engine.Proof.ZoneProof>? Water { get; private init; }

    /// <summary>What to ask next; null where nothing is left to ask.</summary>
    public NextQuestion? Next => Symptoms?.Next ?? Check.Next;

    /// <summary>Whether nothing is wrong.</summary>
    public bool IsWell => Check.Findings.Count == 0 && Water?.Any(z => !z.IsServed) != true
        && (Symptoms is null || Symptoms.Explanations is [{ Slips.Count: 0 }, ..]);

    /// <summary>The whole check at once.</summary>
    public static CheckReport Of(CheckRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        ListOf<Engine.Proof.ZoneProof>? water = request.Years is null ? null
            : WaterAsRead.Of(request.Years, request.Controller.Name, request.Read, request.At);
        return Steps(request).Last().Report! with { Water = water };
    }

    /// <summary>The same in short stretches, for a page that has one thread for everything; the last one holds the report.</summary>
    public static IEnumerable<CheckProgress> Steps(CheckRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        CheckContext context = new(request.At, request.Language) { Doubtful = request.Read.DoubtfulParts };
        CheckResult check = Engine.Checks.Check.Of(request.Site, request.Controller, request.Plan, request.Read.Reading, context);
        return request.Seen is not { } seen
            ? [new CheckProgress(1, new CheckReport(check, null))]
            : Engine.Checks.Seen.Symptoms.Search(request.Site, request.Controller, request.Plan, seen, context, request.Read.Certain())
                .Select(s => new CheckProgress(s.Done, s.Result is null ? null : new CheckReport(check, s.Result)));
    }
}
