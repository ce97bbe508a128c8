using System.CommandLine;
using Valvewright.Cli.Output;
using Valvewright.Store.Files;

namespace Valvewright.Cli.Commands;

/// <summary>Takes everything from one store to another.</summary>
internal static class MoveCommand
{
    public static Job Make()
    {
        Option<string> from = new("--from") { Description = "The store to move: a file or a database. Stop its server first.",
            HelpName = "store", Required = true };
        Option<string> to = new("--to") { Description = "Where to: a new file, or an empty database.",
            HelpName = "store", Required = true };
        Job job = new("move", "Move a store with its whole history from a file to a PostgreSQL database, or back; the old store is kept.",
            "valvewright move --from sites.db --to postgresql://ana@localhost/sites",
                "valvewright move --from postgresql://ana@localhost/sites --to sites.db");
        job.Options.Add(from);
        job.Options.Add(to);
        return job.Does((parse, sheet, _) =>
        {
            string source = parse.GetValue(from)!, target = parse.GetValue(to)!;
            sheet.Progress.Step("Copying");
            Intact whole = StoreMoves.Make(source, target);
            sheet.Answer(new MoveAnswer(StoreArguments.Shown(source), StoreArguments.Shown(target), whole));
            StoreArguments.Tell(sheet, whole);
            sheet.Say($"Moved to {StoreArguments.Shown(target)} and compared, row by row. {StoreArguments.Shown(source)} is as it was.");
            return ExitCode.Done;
        });
    }

    /// <summary>What <c>--json</c> prints.</summary>
    private sealed record MoveAnswer(string From, string To, Intact Holds);
}
