using System.CommandLine;
using Valvewright.Cli.Output;
using Valvewright.Store.Files;

namespace Valvewright.Cli.Commands;

/// <summary>Puts a copy of a store in its place.</summary>
internal static class RestoreCommand
{
    public static Job Make()
    {
        Argument<string> copy = new("copy") { Description = "The backup, as 'valvewright backup' made it." };
        Option<string> store = StoreArguments.Store();
        Job job = new("restore", "Replace a store with a backup after checking it; the old store is kept.",
            "valvewright restore --store sites.db sites-monday.db");
        job.Arguments.Add(copy);
        job.Options.Add(store);
        return job.Does((parse, sheet, _) =>
        {
            string target = parse.GetValue(store)!;
            sheet.Progress.Step("Putting back");
            (Intact whole, string? former) = Backups.PutBack(parse.GetValue(copy)!, target, SystemClock.Instance.GetCurrentInstant());
            sheet.Answer(new RestoreAnswer(target, former, whole));
            StoreArguments.Tell(sheet, whole);
            sheet.Say(former is null ? (Sentence)$"Restored as {target}."
                : (Sentence)$"Restored as {target}. The old store is now {former}.");
            return ExitCode.Done;
        });
    }

    /// <summary>What <c>--json</c> prints.</summary>
    private sealed record RestoreAnswer(string Store, string? Former, Intact Holds);
}
