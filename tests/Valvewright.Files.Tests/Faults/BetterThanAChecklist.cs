using Valvewright.Engine.Faults;
using Valvewright.Engine.Faults.Reasoning;
using Valvewright.Files.Faults;
using Valvewright.Tests.Faults;

namespace Valvewright.Files.Tests.Faults;

/// <summary>A part of what the benchmark measures in full (docs/faults.md, "How good it is").</summary>
public sealed class BetterThanAChecklist
{
    [Fact]
    public void On_a_perturbed_model_with_wrong_answers_it_is_right_more_often_in_less_time()
    {
        Tally chosen = new(), followed = new(), exhaustive = new();
        Random random = new(20261127);
        FaultModel model = FaultModelFiles.Shipped;
        for (int world = 0; world < 6; world++)
        {
            TraceFacts facts = SimulatedSites.All[world % SimulatedSites.All.Count];
            AnswerTables tables = new(model, facts), truth = new(PerturbedModel.Of(model, random, 3), facts);
            Procedures procedures = new(tables);
            for (int i = 0; i < 40; i++)
            {
                SimulatedCase played = new(truth, random, 0.05);
                chosen.Add(procedures.Chosen(played), played);
                followed.Add(procedures.Checklist(played), played);
                exhaustive.Add(procedures.Exhaustive(played), played);
            }
        }

        Assert.True(chosen.Right >= 0.86, $"right {chosen.Right:0.000}");
        Assert.True(chosen.Right >= followed.Right - 0.02, $"{chosen.Right:0.000} beside {followed.Right:0.000}");
        Assert.True(chosen.Minutes <= 0.6 * followed.Minutes, $"{chosen.Minutes:0.0} beside {followed.Minutes:0.0}");
        Assert.True(chosen.Minutes <= 0.5 * exhaustive.Minutes, $"{chosen.Minutes:0.0} beside {exhaustive.Minutes:0.0}");
    }

    [Fact]
    public void The_same_steps_cost_every_procedure_the_same()
    {
        AnswerTables tables = new(FaultModelFiles.Shipped, new TraceFacts());
        Random random = new(7);
        Procedures procedures = new(tables);
        for (int i = 0; i < 20; i++)
        {
            SimulatedCase played = new(tables, random, 0);
            foreach (CaseRun run in (CaseRun[])[procedures.Chosen(played), procedures.Checklist(played), procedures.Exhaustive(played)])
            {
                HashSet<string> been = [];
                double minutes = 0;
                foreach (int step in run.Order)
                {
                    TraceStep done = tables.Steps[step];
                    minutes += done.Minutes + (been.Add(done.Place) ? tables.Model.Places.First(p => p.Name == done.Place).Minutes : 0);
                }

                Assert.Equal(minutes, run.Minutes, 9);
            }
        }
    }
}
