using Valvewright.Records;
using Valvewright.Tests.Browsing;

namespace Valvewright.Page.Tests.Hosting;

/// <summary>A server with sites of other kinds, and somebody at it for each language who stays from test to test.</summary>
public sealed class OtherSites : IAsyncDisposable
{
    private readonly Dictionary<string, Visitor> visitors = [];
    private Served? served;

    /// <summary>The demo in US units with a clock of 12 hours, planned with visits.</summary>
    internal TourSite American { get; private set; } = null!;

    /// <summary>A demo that was surveyed and brought in, and nothing more.</summary>
    internal TourSite Bare { get; private set; } = null!;

    /// <summary>A survey that names a weather file which nobody has sent.</summary>
    internal TourSite Unmeasured { get; private set; } = null!;

    internal async Task<Visitor> Visitor(Stage stage, string language)
    {
        if (served is null)
        {
            served = await Served.Start();
            Guid american = await served.Fill.Bring("saguaro-lane", years: FilledSites.Years);
            Guid plan = (await served.Fill.Do(american, new { kind = "plan", from = "2026-04-01", visits = 3 }))
                .GetProperty("plan").GetGuid();
            American = new TourSite(american, plan, Ids.New(), "East verge");
            Unmeasured = new TourSite(await served.Fill.Survey("quarry-hill"), Guid.Empty, Ids.New(), "");
            Bare = new TourSite(await served.Fill.Bring("polder-green", years: FilledSites.Years), Guid.Empty, Ids.New(), "");
        }

        if (!visitors.TryGetValue(language, out Visitor? visitor))
        {
            visitors.Add(language, visitor = await stage.Visit(served, new Seat { Language = language }));
            await visitor.Open("settings");
        }

        return visitor;
    }

    public async ValueTask DisposeAsync()
    {
        foreach (Visitor visitor in visitors.Values)
        {
            await visitor.DisposeAsync();
        }

        if (served is not null)
        {
            await served.DisposeAsync();
        }
    }
}
