namespace Valvewright.Files.Tests.Weather;

/// <summary>A clock whose waits are over at once; how long they would have been is remembered.</summary>
internal sealed class RememberedWaits : TimeProvider
{
    private readonly List<TimeSpan> all = [];

    /// <summary>The waits so far.</summary>
    public IReadOnlyList<TimeSpan> All => all;

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
    {
        if (dueTime > TimeSpan.Zero)
        {
            all.Add(dueTime);
        }

        return base.CreateTimer(callback, state, dueTime > TimeSpan.Zero ? TimeSpan.Zero : dueTime, period);
    }
}
