using System.CommandLine;
using Valvewright.Cli.Output;
using Valvewright.Store.Files;

namespace Valvewright.Cli.Commands;

/// <summary>Copies a store, also while it is served.</summary>
internal static class BackupCommand
{
    public static Job Make()
    {
        Argument<string> copy = new("copy") { Description = "Where the copy goes; it must not be there yet." };
        Option<string> store = StoreArguments.Store();
        Job job = new("backup", "Copies a store to a file, also while it is being served, and looks the copy through.", "valvewright backup --store sites.db sites-monday.db");
        job.Arguments.Add(copy);
        job.Options.Add(store);
        return job.Does((parse, sheet, _) =>
        {
            string target = parse.GetValue(copy)!;
            sheet.Progress.Step("Copying");
            Intact whole = Backups.Make(parse.GetValue(store)!, target);
            sheet.Answer(new BackupAnswer(target, whole));
            StoreArguments.Tell(sheet, whole);
            sheet.Say($"Copied to {target}. The copy is whole.");
            return ExitCode.Done;
        });
    }

    /// <summary>What <c>--json</c> prints.</summary>
    private sealed record BackupAnswer(string Copy, Intact Holds);
}
