using Valvewright.Engine.Proof;
using Valvewright.Files.Plans;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Server.Sites;
using Valvewright.Store;
using Valvewright.Records;

namespace Valvewright.Server.Plans;

/// <summary>A plan of the store beside the survey as it stands.</summary>
internal sealed record PlanReading(Kept<PlanValue> Kept, Site Site, SavedPlan Saved)
{
    /// <summary>A plan by the ids in an address.</summary>
    public static PlanReading Of(SiteStore store, string site, string plan)
    {
        (Kept<SiteValue> keptSite, Site read, _) = SiteReading.Of(store, site);
        Kept<PlanValue> kept = store.Find<PlanValue>(keptSite.Id, Given.Id(plan, "plan")) ?? throw Refusal.NotFound("plan");
        return new PlanReading(kept, read, Parse(kept.Value.Plan));
    }

    /// <summary>The plan that is shown and worked from where none is named: the latest that fits the survey, else the latest; null where
    /// there is none.</summary>
    public static Kept<PlanValue>? Best(SiteStore store, Guid site)
    {
        string? digest = store.Site(site)?.Value.Digest;
        Kept<PlanValue>[] plans = [.. store.All<PlanValue>(site)];
        return plans.LastOrDefault(p => p.Value.Survey == digest) ?? plans.LastOrDefault();
    }

    /// <summary>The text of a plan's file.</summary>
    /// <exception cref="Refusal">It is none.</exception>
    public static SavedPlan Parse(string text)
    {
        Files.Plans.PlanReading reading = PlanFiles.Parse(text, "plan");
        return reading.Saved ?? throw Refusal.Of(reading.Problems, "The plan cannot be used as it is. Nothing was stored.");
    }

    /// <summary>Refuses a plan for controllers that the site has not, or with settings that they cannot hold.</summary>
    public static void Require(Site site, SavedPlan saved)
    {
        string[] strange = [.. saved.Plan.Controllers.Select(c => c.Controller).Where(n => site.Controllers.All(c => c.Name != n))];
        Breach[] breaches = strange.Length > 0 ? []
            : [.. saved.Plan.Controllers.SelectMany(c => Keyable.Breaches(site.ControllerNamed(c.Controller), c))];
        if (strange.Length > 0 || breaches.Length > 0 || saved.Plan.Controllers.Count == 0)
        {
            throw new Refusal(StatusCodes.Status422UnprocessableEntity, "plan-does-not-fit",
                "The plan does not fit the site's controllers.")
                .With("strangeControllers", strange.Select(Shown.Of).ToArray())
                    .With("breaches", breaches.Select(b => $"{b.Where}: {b.What}").ToArray());
        }
    }

    /// <summary>Refuses the name of a controller that the plan has not.</summary>
    public void RequireController(string? name)
    {
        if (name is not null && Saved.Plan.Controllers.All(c => c.Controller != name))
        {
            throw Refusal.Wrong($"{"controller"}", $"{name}", $"{string.Join(", ", Saved.Plan.Controllers.Select(c => c.Controller))}",
                "The plan has no such controller.");
        }
    }
}
