using System.CommandLine;
using Valvewright.Cli.Output;
using Valvewright.Store.Files;

namespace Valvewright.Cli.Commands;

/// <summary>Looks a store through.</summary>
internal static class VerifyCommand
{
    public static Job Make()
    {
        Option<string> store = StoreArguments.Store();
        Job job = new("verify", "Check a store for damage.", "valvewright verify --store sites.db");
        job.Options.Add(store);
        return job.Does((parse, sheet, _) =>
        {
            string given = parse.GetValue(store)!, file = StoreArguments.Shown(given);
            sheet.Progress.Step("Checking");
            Intact intact = Intact.Check(given);
            sheet.Answer(intact);
            StoreArguments.Tell(sheet, intact);
            foreach (Sentence fault in intact.Faults)
            {
                sheet.Say(fault, 4);
            }

            sheet.Say(intact.IsWhole ? (Sentence)$"{file} is undamaged." : (Sentence)$"{file} is damaged. Restore a backup.");
            return intact.IsWhole ? ExitCode.Done : ExitCode.AnswerIsNo;
        });
    }
}
