using Microsoft.AspNetCore.Diagnostics.HealthChecks;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using Valvewright.Store;

namespace Valvewright.Server.Hosting;

/// <summary>Whether the server runs, and whether it can read its store: for the one that watches over it (docs/running.md).</summary>
internal sealed class HealthEndpoints(SiteStore store) : IEndpoints, IHealthCheck
{
    /// <summary>What is asked without a sign-in or a code: nothing but well or not is told.</summary>
    public const string Address = "/health";

    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapHealthChecks(Address + "/live", new HealthCheckOptions { Predicate = _ => false });
        routes.MapHealthChecks(Address + "/ready");
    }

    public Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default)
    {
        // Any question will do; a store that can't be read answers with an exception, which counts as not well.
        store.VersionOf(Guid.Empty);
        return Task.FromResult(HealthCheckResult.Healthy());
    }
}
