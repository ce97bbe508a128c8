using System.CommandLine;
using Valvewright.Cli.Output;
using Valvewright.Store.Files;

namespace Valvewright.Cli.Commands;

/// <summary>Copies a store, also while it is served.</summary>
internal static class BackupCommand
{
    public static Job Make()
    {
        Argument<string> copy = new("copy") { Description = "The backup file. Must not exist yet." };
        Option<string> store = StoreArguments.Store();
        Job job = new("backup", "Back up a store, also while it is served, and check the copy.",
            "valvewright backup --store sites.db sites-monday.db");
        job.Arguments.Add(copy);
        job.Options.Add(store);
        return job.Does((parse, sheet, _) =>
        {
            string target = parse.GetValue(copy)!;
            sheet.Progress.Step("Copying");
            Intact whole = Backups.Make(parse.GetValue(store)!, target);
            sheet.Answer(new BackupAnswer(target, whole));
            StoreArguments.Tell(sheet, whole);
            sheet.Say($"Saved to {target}. The copy is undamaged.");
            return ExitCode.Done;
        });
    }

    /// <summary>What <c>--json</c> prints.</summary>
    private sealed record BackupAnswer(string Copy, Intact Holds);
}
