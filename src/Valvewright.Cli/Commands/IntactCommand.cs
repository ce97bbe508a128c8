using System.CommandLine;
using Valvewright.Cli.Output;
using Valvewright.Store.Files;

namespace Valvewright.Cli.Commands;

/// <summary>Looks a store through.</summary>
internal static class IntactCommand
{
    public static Job Make()
    {
        Option<string> store = StoreArguments.Store();
        Job job = new("intact", "Looks a store through: whether every page, record and change in it is whole.", "valvewright intact --store sites.db");
        job.Options.Add(store);
        return job.Does((parse, sheet, _) =>
        {
            string file = parse.GetValue(store)!;
            sheet.Progress.Step("Looking through");
            Intact intact = Intact.Check(file);
            sheet.Answer(intact);
            StoreArguments.Tell(sheet, intact);
            foreach (string fault in intact.Faults)
            {
                sheet.Say(fault, 4);
            }

            sheet.Say(intact.IsWhole ? $"{file} is whole." : $"{file} is not whole. Restore a copy.");
            return intact.IsWhole ? ExitCode.Done : ExitCode.AnswerIsNo;
        });
    }
}
