using Valvewright.App.Shelf;
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

    private static string Name(Guid plan) => $"made {plan}";
}
