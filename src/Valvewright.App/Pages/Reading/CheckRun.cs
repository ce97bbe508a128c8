using System.Diagnostics;
using Valvewright.Work;

namespace Valvewright.App.Pages.Reading;

/// <summary>Runs a check in the browser, which has one thread for all: the work pauses every so often, so that the page lives on.</summary>
public static class CheckRun
{
    /// <summary>So long, ms, the page may stand still at a time.</summary>
    private const long LongestStretchMs = 40;

    /// <summary>Checks; gives up where another check is asked for.</summary>
    /// <param name="request">What is asked.</param>
    /// <param name="progress">Called with how much is done, 0 to 1, at each pause.</param>
    /// <param name="cancel">Gives up.</param>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    public static async Task<CheckReport> Of(CheckRequest request, Action<double> progress, CancellationToken cancel)
    {
        progress(0);
        await Task.Delay(1, cancel);
        CheckReport? report = null;
        long since = Stopwatch.GetTimestamp();
        foreach (CheckProgress step in CheckReport.Steps(request))
        {
            report = step.Report;
            if (report is null && Stopwatch.GetElapsedTime(since).TotalMilliseconds > LongestStretchMs)
            {
                progress(step.Done);
                await Task.Delay(1, cancel);
                since = Stopwatch.GetTimestamp();
            }
        }

        return report!;
    }
}
