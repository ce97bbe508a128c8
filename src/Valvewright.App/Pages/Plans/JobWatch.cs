using Valvewright.App.Link;
using Valvewright.Records.Jobs;

namespace Valvewright.App.Pages.Plans;

/// <summary>Long work on the server as this page sees it: asked for, followed, stopped. The work goes on when the page is left; coming back
/// finds it again.</summary>
/// <param name="link">The way to the server.</param>
/// <param name="site">The site.</param>
/// <param name="kind">plan, proof, season or found.</param>
/// <param name="pace">How long to wait between two looks.</param>
public sealed class JobWatch(ServerLink link, Guid site, string kind, TimeSpan pace) : IDisposable
{
    private readonly CancellationTokenSource left = new();

    /// <summary>How long the page waits between two looks.</summary>
    public static TimeSpan UsualPace { get; } = TimeSpan.FromSeconds(1);

    /// <summary>The work as last seen; null where none was asked for.</summary>
    public JobView? Job { get; private set; }

    /// <summary>Why it was not taken on.</summary>
    public Trouble? Trouble { get; private set; }

    /// <summary>No server answered when it was last looked at.</summary>
    public bool IsUnreachable { get; private set; }

    /// <summary>Whether it waits or is being done.</summary>
    public bool IsGoingOn => Job is { State: JobState.Waiting or JobState.Running };

    /// <summary>Raised whenever something new is known.</summary>
    public event Action? Changed;

    /// <summary>Finds work of this kind that is going on, no matter who asked for it, and follows it.</summary>
    public async Task ResumeAsync()
    {
        Reply<ListOf<JobView>> reply = await link.Get<ListOf<JobView>>($"api/sites/{site}/jobs");
        if (reply.Value?.FirstOrDefault(j => j.Kind == kind && j.State is JobState.Waiting or JobState.Running) is { } job && !IsGoingOn)
        {
            Take(job);
            await FollowAsync();
        }
    }

    /// <summary>Asks for work and follows it to its end.</summary>
    public async Task AskAsync(JobRequest request)
    {
        (Job, Trouble, IsUnreachable) = (null, null, false);
        Reply<JobView> reply = await link.Post<JobView>($"api/sites/{site}/jobs", ServerLink.Body(request));
        (Job, Trouble, IsUnreachable) = (reply.Value, reply.Trouble, reply.IsUnreachable);
        Changed?.Invoke();
        await FollowAsync();
    }

    /// <summary>Stops it; it leaves nothing behind.</summary>
    public async Task StopAsync()
    {
        if (Job is { } job)
        {
            Reply<JobView> reply = await link.Delete<JobView>($"api/jobs/{job.Id}");
            if (reply.Value is { } stopped)
            {
                Take(stopped);
            }
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        left.Cancel();
        left.Dispose();
    }

    private async Task FollowAsync()
    {
        while (IsGoingOn && !left.IsCancellationRequested)
        {
            try
            {
                await Task.Delay(pace, left.Token);
            }
            catch (OperationCanceledException)
            {
                return;
            }

            Reply<JobView> reply = await link.Get<JobView>($"api/jobs/{Job!.Id}");
            IsUnreachable = reply.IsUnreachable;
            if (reply.Value is { } job)
            {
                Job = job;
            }
            else if (reply.Trouble is { } trouble)
            {
                // A server that began again knows nothing of it.
                (Job, Trouble) = (null, trouble);
            }

            Changed?.Invoke();
        }
    }

    private void Take(JobView job)
    {
        (Job, Trouble, IsUnreachable) = (job, null, false);
        Changed?.Invoke();
    }
}
