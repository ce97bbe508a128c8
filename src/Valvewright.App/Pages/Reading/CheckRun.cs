using System.Diagnostics;
using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Checks.Seen;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.App.Pages.Reading;

/// <summary>What is asked of a check.</summary>
/// <param name="Site">The survey.</param>
/// <param name="Controller">The controller.</param>
/// <param name="Plan">The plan; null: the reading is judged by itself.</param>
/// <param name="Reading">What was read.</param>
/// <param name="Seen">What was seen.</param>
/// <param name="At">Site time of the reading.</param>
/// <param name="Language">Language of the answer.</param>
public sealed record CheckAsked(Site Site, SiteController Controller, Plan? Plan, Engine.Readings.Reading Reading, ListOf<Observation> Seen, LocalDateTime At, CheckLanguage Language);

/// <summary>What a check came to.</summary>
/// <param name="Check">What is wrong.</param>
/// <param name="Symptoms">What explains what was seen; null where nothing was said.</param>
public sealed record CheckDone(CheckResult Check, SymptomResult? Symptoms)
{
    /// <summary>What to ask next.</summary>
    public NextQuestion? Next => Symptoms?.Next ?? Check.Next;
}

/// <summary>Runs a check in the browser, which has one thread for all: the work pauses every so often, so that the page lives on.</summary>
public static class CheckRun
{
    /// <summary>So long, ms, the page may stand still at a time.</summary>
    private const long LongestStretchMs = 40;

    /// <summary>Checks; gives up where another check is asked for.</summary>
    /// <param name="asked">What is asked.</param>
    /// <param name="progress">Called with how much is done, 0 to 1, at each pause.</param>
    /// <param name="cancel">Gives up.</param>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    public static async Task<CheckDone> Of(CheckAsked asked, Action<double> progress, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(asked);
        ArgumentNullException.ThrowIfNull(progress);
        progress(0);
        await Task.Delay(1, cancel);
        CheckContext context = new(asked.At, asked.Language);
        CheckResult check = Check.Of(asked.Site, asked.Controller, asked.Plan, asked.Reading, context);
        if (asked.Seen.Count == 0)
        {
            return new CheckDone(check, null);
        }

        SymptomResult? symptoms = null;
        long since = Stopwatch.GetTimestamp();
        foreach (SymptomStep step in Symptoms.Search(asked.Site, asked.Controller, asked.Plan, asked.Seen, context, asked.Reading))
        {
            symptoms = step.Result;
            if (Stopwatch.GetElapsedTime(since).TotalMilliseconds > LongestStretchMs)
            {
                progress(step.Done);
                await Task.Delay(1, cancel);
                since = Stopwatch.GetTimestamp();
            }
        }

        return new CheckDone(check, symptoms);
    }
}
