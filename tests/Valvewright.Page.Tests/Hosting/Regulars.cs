namespace Valvewright.Page.Tests.Hosting;

/// <summary>A server, and one visitor for each seat who stays from test to test: what a page looks like does not depend on how one came to
/// it.</summary>
public sealed class Regulars : IAsyncDisposable
{
    private readonly Dictionary<Seat, Visitor> visitors = [];
    private Served? served;

    internal async Task<Visitor> At(Stage stage, Seat seat)
    {
        served ??= await stage.Serve();
        if (!visitors.TryGetValue(seat, out Visitor? visitor))
        {
            visitors.Add(seat, visitor = await stage.Visit(served, seat));
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
