using System.Text.RegularExpressions;
using NodaTime;
using Valvewright.Engine.Faults;
using Valvewright.Engine.Values;
using Valvewright.Files.Faults;

namespace Valvewright.Files.Tests.Faults;

/// <summary>No path leads to a step or a repair that can hurt without its caution.</summary>
public sealed partial class StepsCarryTheirCautions
{
    private static readonly FaultModel Model = FaultModelFiles.Shipped;

    /// <summary>What a sentence asks of a person, and the caution that must stand with it (reference: trade safety rules,
    /// docs/faults.md).</summary>
    private static readonly (string Hazard, Regex Words)[] Rules =
    [
        ("digging", Digs()), ("pressure", Opens()), ("air", Blows()), ("backflow", Backflow()), ("battery", Battery()), ("pump", Pumps()),
    ];

    [Fact]
    public void Every_path_carries_the_cautions()
    {
        TraceFacts facts = new() { HasPump = true, HasSensor = true, IsAtRoad = true, IsReclaimed = true, IsDosed = true };
        Tracer tracer = new(Model, facts);
        HashSet<string> asked = [], ended = [];
        foreach (Complaint complaint in Model.Complaints)
        {
            Walk(tracer, Case(complaint.Name, facts), 1, asked, ended);
        }

        Assert.True(asked.Count > Model.Steps.Count / 2, $"{asked.Count} steps reached");
        Assert.True(ended.Count > Model.Causes.Count / 2, $"{ended.Count} causes reached");
    }

    /// <summary>What the walk does not reach is reached after "can't do that", "don't know" or on another site: all is held to the same
    /// rule.</summary>
    [Theory]
    [InlineData(false, false, false)]
    [InlineData(true, false, false)]
    [InlineData(false, true, false)]
    [InlineData(false, false, true)]
    [InlineData(true, true, true)]
    public void Every_step_and_every_repair_carries_the_cautions(bool road, bool reclaimed, bool dosed)
    {
        TraceFacts facts = new() { IsAtRoad = road, IsReclaimed = reclaimed, IsDosed = dosed };
        Assert.All(Model.Steps, s => Hold(facts, s));
        Assert.All(Model.Causes, c => Hold(facts, c));
    }

    /// <summary>Every answer at every step, until the end or until a path has become less probable than one in two hundred.</summary>
    private static void Walk(Tracer tracer, TraceCase trace, double share, HashSet<string> asked, HashSet<string> ended)
    {
        TraceView view = tracer.Look(trace);
        if (view.Next is not { } next)
        {
            foreach (string cause in view.End!.Causes)
            {
                ended.Add(cause);
                Hold(tracer.Facts, Model.CauseNamed(cause)!);
            }

            return;
        }

        asked.Add(next.Step);
        TraceStep step = Model.StepNamed(next.Step)!;
        Hold(tracer.Facts, step);
        foreach (Lead lead in next.Leads.Where(l => l.Share * share > 0.005))
        {
            Walk(tracer, trace.With(new TraceAnswer(step.Name, lead.Answer)), share * lead.Share, asked, ended);
        }
    }

    private static void Hold(TraceFacts facts, TraceStep step)
    {
        string[] carried = [.. TraceCautions.Of(Model, facts, step).Select(h => h.Name)];
        Hold(step.Name, step.Question.English, carried);
        Sited(facts, step.Name, carried, Touches(step.Hazards));
        Assert.True(step.Place != "valve box" || carried.Contains("box"), $"{step.Name} reaches into a valve box");
        Assert.True(!step.Needs.Contains("shovel") || carried.Contains("digging"), $"{step.Name} digs");
        Assert.True(step.Measured is not (Expected.LoopOhms or Expected.CoilOhms) || carried.Contains("electric"),
            $"{step.Name} measures on wiring");
    }

    private static void Hold(TraceFacts facts, Cause cause)
    {
        string[] carried = [.. TraceCautions.Of(Model, facts, cause).Select(h => h.Name)];
        Hold(cause.Name, cause.Repair.English, carried);
        Sited(facts, cause.Name, carried, Touches(cause.Hazards));
    }

    private static void Hold(string name, string text, string[] carried)
    {
        foreach ((string hazard, Regex words) in Rules)
        {
            Assert.True(!words.IsMatch(text) || carried.Contains(hazard), $"'{name}' says '{text}' without the caution '{hazard}'");
        }
    }

    private static void Sited(TraceFacts facts, string name, string[] carried, bool wet)
    {
        Assert.True(!facts.IsAtRoad || carried.Contains("traffic"), $"{name}: traffic");
        Assert.True(!(facts.IsReclaimed && wet) || carried.Contains("reclaimed"), $"{name}: reclaimed");
        Assert.True(!(facts.IsDosed && wet) || carried.Contains("dosed"), $"{name}: dosed");
    }

    /// <summary>Whatever opens a pressurized part or lets water out touches the water.</summary>
    private static bool Touches(ListOf<string> hazards) => hazards.Contains("pressure") || hazards.Contains("water");

    [Fact]
    public void What_opens_a_line_touches_its_water()
    {
        Assert.All(Model.Steps, s => Assert.True(!s.Hazards.Contains("pressure") || s.Hazards.Contains("water"), s.Name));
        Assert.All(Model.Causes, c => Assert.True(!c.Hazards.Contains("pressure") || c.Hazards.Contains("water"), c.Name));
    }

    [Fact]
    public void Every_hazard_has_its_caution_in_both_languages() =>
        Assert.All(
            (string[])["digging", "pressure", "air", "traffic", "reclaimed", "dosed", "backflow", "battery", "box", "electric", "pump"],
            name => Assert.Contains(Model.Hazards, h => h.Name == name && h.Text.English.Length > 30 && h.Text.Spanish.Length > 30));

    private static TraceCase Case(string complaint, TraceFacts facts) => new()
    {
        Site = "x", Controller = "x", Station = 2, Complaint = complaint, Began = new LocalDateTime(2026, 7, 1, 8, 0), Facts = facts,
    };

    [GeneratedRegex(@"\b(dig|digs|dug|excavat\w+|pull new wire|find the break)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Digs();

    [GeneratedRegex(
        @"\b(unscrew|take the top off|open the (?:valve|filter)\b(?! by hand)|bleed screw, or turn|cut it out|relieve|replace the coil|a coil that works on the valve)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Opens();

    [GeneratedRegex(@"compressed air|blow ?out|compressor", RegexOptions.IgnoreCase)]
    private static partial Regex Blows();

    [GeneratedRegex(@"backflow|certified tester", RegexOptions.IgnoreCase)]
    private static partial Regex Backflow();

    [GeneratedRegex(@"\b(change the battery|fresh battery|battery contacts)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Battery();

    [GeneratedRegex(@"\bpump\b", RegexOptions.IgnoreCase)]
    private static partial Regex Pumps();
}
