using System.CommandLine;
using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;
using Valvewright.Records.Carrying;
using Valvewright.Server.Carrying;
using Valvewright.Store;

namespace Valvewright.Cli.Commands;

/// <summary>Takes in the records that a carried file gave back.</summary>
internal static class TakeCommand
{
    private const long LargestBytes = 20_000_000;

    public static Job Make()
    {
        Argument<string> file = new("file") { Description = "The file of records that a carried file saved." };
        Option<string> store = StoreArguments.Store();
        Job job = new("take", "Take in the records of a carried file. Each is stored once, however often the file comes.",
            "valvewright take records.json --store sites.db");
        job.Arguments.Add(file);
        job.Options.Add(store);
        return job.Does((parse, sheet, _) => Run(parse.GetValue(file)!, parse.GetValue(store)!, sheet));
    }

    private static int Run(string file, string storeFile, Sheet sheet)
    {
        RecordFile given = Read(file);
        using SiteStore store = SiteStore.Open(storeFile);
        ListOf<(VisitRecord Visit, Outcome Outcome)> taken;
        try
        {
            taken = RecordTaking.TakeIn(store, given, SystemClock.Instance);
        }
        catch (Exception reason) when (reason is FormatException or KeyNotFoundException)
        {
            throw new ProblemsException(new Problem(file, 0, 0, given.SiteName, "records that this store can keep", null, reason.Message));
        }

        int made = taken.Count(t => t.Outcome == Outcome.Made), same = taken.Count(t => t.Outcome == Outcome.Same),
            other = taken.Count - made - same;
        sheet.Answer(new TakeAnswer(given.Site, made, same, other));
        Table table = new("visit", "controller", "outcome");
        foreach ((VisitRecord visit, Outcome outcome) in taken)
        {
            table.Row($"{visit.Value.At:uuuu-MM-dd HH:mm}", Printable.Of(visit.Value.Controller), outcome switch
                { Outcome.Made => "taken in", Outcome.Same => "there already", _ => "there already, with other content: left as it is" });
        }

        sheet.Show(table);
        return ExitCode.Done;
    }

    private static RecordFile Read(string file)
    {
        try
        {
            FileInfo there = new(file);
            if (!there.Exists || there.Length > LargestBytes)
            {
                throw new ProblemsException(
                    new Problem(file, 0, 0, there.Exists ? $"{there.Length} bytes" : "no such file",
                        "a file of records, saved from a carried file", null, "there is nothing to take in"));
            }

            return RecordFile.Read(File.ReadAllText(file));
        }
        catch (Exception reason) when (reason is FormatException or IOException or UnauthorizedAccessException)
        {
            throw new ProblemsException(new Problem(file, 0, 0, "", "a file of records, saved from a carried file", null, reason.Message));
        }
    }

    /// <summary>What <c>--json</c> prints.</summary>
    private sealed record TakeAnswer(Guid Site, int TakenIn, int ThereAlready, int LeftAsItIs);
}
