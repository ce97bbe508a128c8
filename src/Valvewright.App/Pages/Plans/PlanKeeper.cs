using Valvewright.App.Link;
using Valvewright.App.Shelf;
using Valvewright.Engine.Plans;
using Valvewright.Files.Plans;
using Valvewright.Records;
using Valvewright.Records.Jobs;

namespace Valvewright.App.Pages.Plans;

/// <summary>Keeps programs as the plan of a site: sent to the server, proven there, brought back to this device. The plan before stays in
/// the list of plans.</summary>
public sealed class PlanKeeper(ServerLink link, SiteShelf sites)
{
    /// <summary>Keeps programs that are worked from, from a date on.</summary>
    /// <returns>The plan's id, and what the server said of it.</returns>
    public async Task<(Guid Plan, Reply<string> Sent)> KeepAsync(OpenedSite site, Plan plan, LocalDate from)
    {
        ArgumentNullException.ThrowIfNull(site);
        (Guid id, Reply<string> sent) = await SendAsync(site, plan, from);
        if (sent.IsDone)
        {
            // Where it can't be proven now, the plan says that it is not, and can be proven later.
            using JobWatch proof = new(link, site.Id, "proof", JobWatch.UsualPace);
            await proof.AskAsync(new JobRequest("proof", id));
            await sites.RefreshAsync(site.Id);
        }

        return (id, sent);
    }

    /// <summary>Sends programs as a plan, to be found in the list of plans.</summary>
    /// <returns>The plan's id, and what the server said of it.</returns>
    public async Task<(Guid Plan, Reply<string> Sent)> SendAsync(OpenedSite site, Plan plan, LocalDate from)
    {
        ArgumentNullException.ThrowIfNull(site);
        Guid id = Ids.New();
        string text = PlanFiles.Write(SavedPlan.Of(site.Site, plan, from));
        return (id, await link.Put<string>($"api/sites/{site.Id}/plans/{id}", ServerLink.Body(text, "application/json")));
    }
}
