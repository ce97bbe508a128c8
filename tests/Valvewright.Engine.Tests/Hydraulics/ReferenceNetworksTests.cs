using System.Text.Json;
using Valvewright.Engine.Hydraulics;
using Valvewright.Engine.Values;
using Valvewright.Tests;

namespace Valvewright.Engine.Tests.Hydraulics;

/// <summary>
/// Random networks against EPANET 2.2 (US EPA, public domain). Its results are in reference/networks.json; bench/reference-networks makes
/// them.
/// </summary>
public sealed class ReferenceNetworksTests
{
    private const double Tolerance = 0.005;

    /// <summary>The reference prints heads to 0.01 mm; smaller losses say nothing.</summary>
    private const double SmallestLossM = 0.05;

    [Fact]
    public void Pressures_and_losses_agree_within_half_a_percent_on_80_networks()
    {
        int networks = 0;
        int looped = 0;
        int sprinklers = 0;
        foreach (JsonElement each in Reference())
        {
            (PipeNetwork network, double[] heads, _) = Read(each);
            NetworkBalance balance = NetworkSolver.Solve(network);
            double source = balance.Points[0].HeadM;
            for (int i = 1; i < heads.Length; i++)
            {
                double pressure = heads[i] - network.Points[i].ElevationM;
                Assert.InRange(balance.Points[i].HeadM - heads[i], -Tolerance * pressure, Tolerance * pressure);
                double loss = source - heads[i];
                if (loss > SmallestLossM) Assert.Equal(1, (source - balance.Points[i].HeadM) / loss, Tolerance);
            }

            Assert.True(balance.WorstEnergyErrorM < 1e-6);
            networks++;
            looped += each.GetProperty("looped").GetBoolean() ? 1 : 0;
            sprinklers += network.Points.Any(p => p.Outlet is not null) ? 1 : 0;
        }

        Assert.Equal(80, networks);
        Assert.InRange(looped, 25, 55);
        Assert.InRange(sprinklers, 25, 55);
    }

    [Fact]
    public void Flows_agree_within_one_percent()
    {
        foreach (JsonElement each in Reference())
        {
            (PipeNetwork network, _, double[] flows) = Read(each);
            NetworkBalance balance = NetworkSolver.Solve(network);
            for (int i = 0; i < flows.Length; i++) Assert.Equal(flows[i], balance.Pipes[i].FlowLpm, 0.01 * (Math.Abs(flows[i]) + 0.5));
        }
    }

    [Fact]
    public void What_comes_in_at_every_point_goes_out_of_it()
    {
        foreach (JsonElement each in Reference())
        {
            (PipeNetwork network, _, _) = Read(each);
            NetworkBalance balance = NetworkSolver.Solve(network);
            foreach (PointBalance point in balance.Points)
            {
                double arrives = network.Pipes.Zip(balance.Pipes)
                    .Sum(p => p.First.To == point.Name ? p.Second.FlowLpm : p.First.From == point.Name ? -p.Second.FlowLpm : 0);
                double leaves = network.Points.First(p => p.Name == point.Name).DrawLpm + point.OutletLpm;
                Assert.Equal(leaves, arrives + point.SupplyLpm, 1e-4);
            }
        }
    }

    private static IEnumerable<JsonElement> Reference() =>
        JsonDocument.Parse(File.ReadAllText(Path.Combine(Checkout.Root, "reference", "networks.json"))).RootElement.GetProperty("networks")
            .EnumerateArray();

    private static (PipeNetwork Network, double[] HeadsM, double[] FlowsLpm) Read(JsonElement each)
    {
        JsonElement[] points = [.. each.GetProperty("points").EnumerateArray()];
        JsonElement[] pipes = [.. each.GetProperty("pipes").EnumerateArray()];
        PipeNetwork network = new(
            points.Select((p, i) => new NetworkPoint(
                Text(p, "name"), Number(p, "elevationM"), Number(p, "drawLpm"),
                p.TryGetProperty("outlet", out JsonElement outlet)
                    ? new PressureOutlet(Number(outlet, "flowLpm"), Number(outlet, "pressureKpa")) : null,
                i == 0 ? new SupplyCurve([new FlowTestPoint(0, Number(each, "staticKpa"))]) : null)).ToListOf(),
            pipes.Select(p => new PipeRun(
                Text(p, "name"), Text(p, "from"), Text(p, "to"), Number(p, "lengthM"), Number(p, "boreMm"), Number(p, "roughness"),
                    Number(p, "lossK"))).ToListOf());
        return (network, [.. points.Select(p => Number(p, "headM"))], [.. pipes.Select(p => Number(p, "flowLpm"))]);
    }

    private static string Text(JsonElement of, string name) => of.GetProperty(name).GetString()!;

    private static double Number(JsonElement of, string name) => of.TryGetProperty(name, out JsonElement value) ? value.GetDouble() : 0;
}
