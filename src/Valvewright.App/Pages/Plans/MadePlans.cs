using Valvewright.App.Shelf;
using Valvewright.Engine.Plans;
using Valvewright.Records.Jobs;

namespace Valvewright.App.Pages.Plans;

/// <summary>How good a plan is, as the server said when it was made; kept on the device beside the site.</summary>
public sealed class MadePlans(DeviceShelf shelf)
{
    private const string Store = "drafts";

    /// <summary>Keeps what was said.</summary>
    public Task KeepAsync(Guid plan, SearchReport report) => shelf.Put(Store, Name(plan), report);

    /// <summary>What was said; null where this device did not see it made.</summary>
    public Task<SearchReport?> FindAsync(Guid plan) => shelf.Get<SearchReport>(Store, Name(plan));

    /// <summary>Settings to key in: water days, start times and run times that are not zero.</summary>
    public static int SettingsOf(ControllerPlan plan)
    {
        return plan.Settings.Programs.Sum(p => p.StartTimes.Count + p.RunTimes.Count(r => r.Seconds > 0) + (p.Days is null ? 0 : 1));
    }

    private static string Name(Guid plan) => $"made {plan}";
}
