using System.CommandLine;
using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Engine.Words;
using Valvewright.Files.Problems;
using Valvewright.Files.Texts;
using Valvewright.Records;
using Valvewright.Server.Carrying;
using Valvewright.Store;

namespace Valvewright.Cli.Commands;

/// <summary>Writes a site as one file that opens from a phone's storage, without a server and without a signal.</summary>
internal static class CarryCommand
{
    public static Job Make()
    {
        Argument<string> site = new("site") { Description = "The site's name in the store, or its id." };
        Option<string> store = StoreArguments.Store();
        Option<string?> file = new("--file")
            { Description = "The file to write. Default: the site's name with .html.", HelpName = "file" };
        Job job = new("carry", "Write a site as one HTML file: cards, the work at each controller, a year of what runs when. It opens " +
            "from a phone's storage without a signal.", "valvewright carry \"Quarry Hill\" --store sites.db");
        job.Arguments.Add(site);
        foreach (Option option in new Option[] { store, file })
        {
            job.Options.Add(option);
        }

        return job.Does((parse, sheet, _) =>
            Run(parse.GetValue(store)!, parse.GetValue(site)!, sheet.Language, parse.GetValue(file), sheet));
    }

    private static int Run(string file, string wanted, Language language, string? target, Sheet sheet)
    {
        using SiteStore store = SiteStore.Open(file);
        Kept<SiteValue> site = Find(store, wanted);
        string path = Path.GetFullPath(
            target ?? $"{string.Concat(site.Value.Name.Select(c => char.IsLetterOrDigit(c) || c is '-' or '_' ? c : '-'))}.html");
        string page;
        try
        {
            page = OneFile.Write(store, site.Id, language, SystemClock.Instance);
        }
        catch (CarryingException reason)
        {
            throw new ProblemsException(new Problem("site", 0, 0, site.Value.Name, reason.Expected, null, reason.Message));
        }

        new WholeFiles(Path.GetDirectoryName(path)!).Add(Path.GetFileName(path), page).Write();
        sheet.Answer(new CarryAnswer(site.Id, path));
        sheet.Say(
            $"{path}: copy it to the phone and open it there. What is recorded in it comes back as a file: valvewright take FILE --store {Printable.Of(StoreArguments.Shown(file))}");
        return ExitCode.Done;
    }

    private static Kept<SiteValue> Find(SiteStore store, string wanted)
    {
        Kept<SiteValue>[] all = [.. store.Sites()];
        Kept<SiteValue>[] named =
            [.. all.Where(s => string.Equals(s.Value.Name, wanted, StringComparison.OrdinalIgnoreCase) || s.Id.ToString() == wanted)];
        return named.Length == 1 ? named[0] : throw new ProblemsException(new Problem(
            "site", 0, 0, wanted, named.Length > 1 ? (Sentence)$"an id: {string.Join(", ", named.Select(s => s.Id))}"
                : string.Join(", ", all.Select(s => Printable.Of(s.Value.Name))),
            NearestWord.To(wanted, all.Select(s => s.Value.Name)), named.Length > 1 ? "several sites have that name"
                : "the store has no such site"));
    }

    /// <summary>What <c>--json</c> prints.</summary>
    private sealed record CarryAnswer(Guid Site, string File);
}
