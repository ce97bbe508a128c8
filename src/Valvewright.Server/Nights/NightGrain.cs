using NodaTime.Text;
using Orleans;
using Orleans.Placement;
using Orleans.Runtime;
using Valvewright.Files.Surveys;
using Valvewright.Server.Jobs;
using Valvewright.Store;
using Valvewright.Store.Files;
using Valvewright.Work.Rounds;

namespace Valvewright.Server.Nights;

/// <summary>Sees to it that each site has advice of its night and of its latest weather. There is one of it among all silos.</summary>
internal interface INightGrain : IGrainWithIntegerKey
{
    /// <summary>Has it look from now on.</summary>
    Task Watch();

    /// <summary>Looks once, and waits until all that was due is done.</summary>
    /// <returns>How many sites were looked at.</returns>
    Task<int> Look();
}

/// <summary>Finds the advice for one site.</summary>
internal interface IAdviceGrain : IGrainWithGuidKey
{
    /// <summary>Finds it and keeps it.</summary>
    /// <param name="night">The date at the site, year-month-day.</param>
    /// <param name="mark">What it rests on (<see cref="SiteStore.Marks"/>).</param>
    Task Find(string night, long mark);
}

/// <inheritdoc cref="INightGrain"/>
internal sealed class NightGrain(SiteStore store, IClock clock) : Grain, INightGrain, IRemindable
{
    /// <summary>How often it looks.</summary>
    private static readonly TimeSpan Period = TimeSpan.FromMinutes(1);

    /// <summary>Sites that are asked for at once, over all silos.</summary>
    private const int AtOnce = 32;

    private const string Name = "night";

    private readonly Dictionary<Guid, (long Mark, DateTimeZone Zone)> zones = [];
    private Task<int> looking = Task.FromResult(0);

    public Task Watch() => this.RegisterOrUpdateReminder(Name, Period, Period);

    /// <summary>A night of many sites lasts longer than a reminder waits.</summary>
    public Task ReceiveReminder(string reminderName, TickStatus status)
    {
        _ = Look();
        return Task.CompletedTask;
    }

    public Task<int> Look() => looking.IsCompleted ? looking = LookOnce() : looking;

    private async Task<int> LookOnce()
    {
        Instant now = clock.GetCurrentInstant();
        IReadOnlyDictionary<Guid, long> marks = store.Marks();
        IReadOnlyDictionary<Guid, (LocalDate Night, long Mark)> kept = store.AdviceKept();
        List<(Guid Site, LocalDate Night, long Mark)> due = [];
        foreach ((Guid site, long mark) in marks.OrderBy(m => m.Key))
        {
            LocalDate night = now.InZone(ZoneOf(site, mark)).Date;
            if (!kept.TryGetValue(site, out (LocalDate Night, long Mark) there) || there.Night < night || there.Mark < mark)
            {
                due.Add((site, night, mark));
            }
        }

        using SemaphoreSlim room = new(AtOnce);
        await Task.WhenAll(due.Select(async d =>
        {
            await room.WaitAsync();
            try
            {
                await GrainFactory.GetGrain<IAdviceGrain>(d.Site).Find(LocalDatePattern.Iso.Format(d.Night), d.Mark);
            }
            catch (Exception reason) when (reason is OrleansException or TimeoutException or IOException
                || DatabaseLoss.Caused(reason))
            {
                // It is still due, and found at the next look.
            }
            finally
            {
                room.Release();
            }
        }));
        return due.Count;
    }

    /// <summary>A site's zone, read again when something of the site has changed.</summary>
    private DateTimeZone ZoneOf(Guid site, long mark)
    {
        if (!zones.TryGetValue(site, out (long Mark, DateTimeZone Zone) known) || known.Mark != mark)
        {
            DateTimeZone zone = store.Site(site) is { } kept && SurveyFiles.ParseApart(kept.Value.Survey, "survey").Site is { } read
                ? read.Zone() : DateTimeZone.Utc;
            zones[site] = known = (mark, zone);
        }

        return known.Zone;
    }
}

/// <inheritdoc cref="IAdviceGrain"/>
[ActivationCountBasedPlacement]
internal sealed class AdviceGrain(SiteStore store, IClock clock, WorkBench bench) : Grain, IAdviceGrain
{
    public async Task Find(string night, long mark)
    {
        Guid site = this.GetPrimaryKey();
        LocalDate date = LocalDatePattern.Iso.Parse(night).Value;
        await bench.Processors.WaitAsync();
        try
        {
            await Task.Run(() => Keep(site, date, mark));
        }
        finally
        {
            bench.Processors.Release();
        }

        // The next is due tomorrow.
        DeactivateOnIdle();
    }

    private void Keep(Guid site, LocalDate date, long mark)
    {
        if (store.Site(site) is not { } kept)
        {
            return;
        }

        SiteAdvice advice;
        try
        {
            advice = Nightly.Of(store, kept, date);
        }
#pragma warning disable CA1031 // A defect at one site is told there, and is not tried again until something changes.
        catch (Exception reason) when (!DatabaseLoss.Caused(reason))
#pragma warning restore CA1031
        {
            advice = SiteAdvice.None("the advice could not be worked out");
        }

        store.KeepAdvice(new KeptAdvice(site, date, mark, clock.GetCurrentInstant(), Nightly.Write(advice)));
    }
}
