using Orleans;
using Orleans.Runtime;
using Valvewright.Store;

namespace Valvewright.Server.Jobs;

/// <summary>Looks again and again for work that no one is doing. There is one of it among all silos; where its silo is lost, another has
/// it.</summary>
internal interface ISweepGrain : IGrainWithIntegerKey
{
    /// <summary>Has it look from now on.</summary>
    Task Watch();

    /// <summary>Looks once.</summary>
    Task Sweep();
}

/// <inheritdoc cref="ISweepGrain"/>
internal sealed class SweepGrain(SiteStore store) : Grain, ISweepGrain, IRemindable
{
    /// <summary>How often it looks.</summary>
    public static readonly TimeSpan Period = TimeSpan.FromSeconds(10);

    private const string Name = "sweep";

    public async Task Watch()
    {
        await this.RegisterOrUpdateReminder(Name, Period, Period);
        await Sweep();
    }

    public Task ReceiveReminder(string reminderName, TickStatus status) => Sweep();

    public async Task Sweep() => await Task.WhenAll(store.OpenJobs().Select(id => Begun(id)));

    private async Task Begun(Guid id)
    {
        try
        {
            await GrainFactory.GetGrain<IJobGrain>(id).Look();
        }
        catch (Exception reason) when (reason is OrleansException or TimeoutException or IOException)
        {
            // Its silo is about to be given up; the next sweep finds it elsewhere.
        }
    }
}
