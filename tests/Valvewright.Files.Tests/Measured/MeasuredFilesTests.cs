using System.Text;
using Valvewright.Engine.Hydraulics;
using Valvewright.Engine.Survey;
using Valvewright.Files.Measured;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys;
using Valvewright.Files.Tests.Surveys;
using Valvewright.Tests;

namespace Valvewright.Files.Tests.Measured;

public sealed class MeasuredFilesTests
{
    private static readonly string Folder = Path.Combine(Checkout.Root, "demo", "quarry-hill");
    private static readonly Site Site = SurveyFiles.Read(Folder).Site!;
    private static readonly string Demo = File.ReadAllText(Path.Combine(Folder, MeasuredFiles.UsualName));

    [Fact]
    public void The_demo_file_is_read_whole()
    {
        MeasuredReading reading = MeasuredFiles.Read(Path.Combine(Folder, MeasuredFiles.UsualName), Site);
        Assert.Empty(reading.Problems);
        MeasuredSite measured = reading.Site!;
        MeasuredAudit audit = Assert.Single(measured.Audits);
        Assert.Equal(24, audit.Cans.Readings.Count);
        Assert.Equal((10, 9), (audit.Places[23].XM, audit.Places[23].YM));
        Assert.Equal(302, audit.MeterL);
        Assert.Equal(4 / 3.6, audit.WindMps!.Value, 9);
        MeasuredSupply supply = Assert.Single(measured.Supplies);
        Assert.Equal(280, supply.Curve.PressureKpa(0), 9);
        Assert.Equal(7, supply.Pipes!.Network.Pipes.Count);
        Assert.Equal(2, supply.Pipes.Network.Points.First(p => p.Name == "old lawn").ElevationM, 9);
        Assert.Equal(PipeTables.InsideDiameterMm(PipeMaterial.PvcSchedule40, "1"), supply.Pipes.Network.Pipes[0].InsideDiameterMm);
        Assert.Equal(0.2 + 0.8 + 0.8, supply.Pipes.Network.Pipes[0].LossCoefficient, 9);
        Assert.Equal(9000, supply.Tank!.VolumeL);
        Assert.Equal(8.7, measured.Batteries[1].Volts);
        Assert.Equal(18, measured.Batteries[1].StandbyMicroamps);
        Assert.Equal(25, measured.Coils[0].WireM);
        Assert.Equal(1204.31, measured.Meters[0].Readings[0].M3, 9);
        Assert.Equal(0.01, measured.Meters[0].ResolutionM3, 9);
    }

    [Theory]
    [InlineData("controller: Gate\n    station: 2", "controller: Gaet\n    station: 2", "no controller of this name", "Gate")]
    [InlineData("controller: Gate\n    station: 2", "controller: Gate\n    station: 4", "waters no zone", null)]
    [InlineData("opening: 90 cm2", "opening: 90 kPa", "This is not the opening of a can", null)]
    [InlineData("volumes: [28", "volumes: [-28", "cannot be negative", null)]
    [InlineData("columns: 6", "colums: 6", "Unknown key", "columns")]
    [InlineData("size: 3/4, fittings: [globe valve] }\n      - { name: old", "size: 7/8, fittings: [globe valve] }\n      - { name: old",
        "no such size", null)]
    [InlineData("to: old lawn,", "to: old lawnn,", "No pipe ends at this point", "old lawnn")]
    [InlineData("from: tee, to: terrace valves", "from: te, to: terrace valves", "No pipe leads from the supply", null)]
    [InlineData("fittings: [gate valve, elbow", "fittings: [gate valv, elbow", "Unknown word for 'fittings'", "gate valve")]
    [InlineData("kind: 9 V alkaline, since: 2026-03-10", "kind: 9 V alkalin, since: 2026-03-10", "Unknown word for 'kind'", "9 v alkaline")]
    [InlineData("gauge: 18", "gauge: 17", "not a gauge", null)]
    [InlineData("on: 2026-06-15", "on: 2026-05-01", "order of their dates", null)]
    [InlineData("flow: 15 L/min, pressure: 262", "flow: 24 L/min, pressure: 262", "same flow", null)]
    [InlineData("least: 170 kPa", "least: 400 kPa", "above the largest", null)]
    [InlineData("least: 500 L", "least: 9500 L", "More must stay in", null)]
    public void What_is_wrong_is_said_with_its_line_and_the_nearest_word(string good, string bad, string told, string? nearest)
    {
        Assert.Contains(good, Demo, StringComparison.Ordinal);
        MeasuredReading reading = MeasuredFiles.Parse(Demo.Replace(good, bad, StringComparison.Ordinal), "measured.yaml", Site);
        Assert.Null(reading.Site);
        Problem? problem = reading.Problems.FirstOrDefault(p => p.Message.Text.Contains(told, StringComparison.Ordinal));
        Assert.NotNull(problem);
        Assert.True(problem.Line > 0);
        Assert.Equal(nearest, problem.Nearest);
    }

    [Fact]
    public void Rises_around_a_loop_must_close()
    {
        string looped = Demo.Replace(
            "    sprinklers:\n      - { at",
                "      - { from: old lawn, to: terrace valves, length: 40 m, size: 1, rise: 9 m }\n    sprinklers:\n      - { at",
                    StringComparison.Ordinal);
        Assert.Contains(MeasuredFiles.Parse(looped, "m", Site).Problems, p =>
            p.Message.Text.Contains("do not add up to 0", StringComparison.Ordinal));
        Assert.Empty(MeasuredFiles.Parse(looped.Replace("rise: 9 m", "rise: -4 m", StringComparison.Ordinal), "m", Site).Problems);
    }

    [Fact]
    public void A_missing_file_is_a_problem_and_nothing_throws_for_damage()
    {
        Assert.NotEmpty(MeasuredFiles.Read(Path.Combine(Folder, "nowhere.yaml"), Site).Problems);
        byte[] bytes = Encoding.UTF8.GetBytes(Demo);
        for (int seed = 0; seed < 600; seed++)
        {
            MeasuredReading reading = MeasuredFiles
                .Parse(Encoding.UTF8.GetString(SurveyFuzz.Mutate(bytes, new Random(seed))), "measured.yaml", Site);
            Assert.True(reading.Site is not null || reading.Problems.Count > 0);
        }
    }
}
