using System.CommandLine;
using Valvewright.Cli.Commands.Rounds;
using Valvewright.Cli.Output;
using Valvewright.Engine.Budget;
using Valvewright.Files.Cards.Pdf;
using Valvewright.Files.Problems;
using Valvewright.Files.Tables;
using Valvewright.Files.Texts;
using Valvewright.Work.Accounts;

namespace Valvewright.Cli.Commands.Accounts;

/// <summary>The water of a calendar year, site by site.</summary>
internal static class AccountsCommand
{
    private const int FirstYear = 1901;

    public static Job Make()
    {
        Argument<string[]> sites = new("sites")
            { Description = "Site files or their folders, or a folder of such folders.", Arity = ArgumentArity.ZeroOrMore };
        Option<string?> store = new("--store") { Description = "Take the sites of a store instead.", HelpName = "store" };
        Option<int?> year = new("--year") { Description = "The calendar year; this year when not given.", HelpName = "year" };
        Option<LocalDate?> today = SiteArguments.Date("--today", "The last day that counts; today when not given.");
        Option<string> use = new("--use") { Description = "What the landscapes are for: residential (ETAF 0.55) or other (0.45).",
            HelpName = "use", DefaultValueFactory = _ => "other" };
        Option<string?> done = new("--done")
            { Description = "Visits that were made: a table 'site,controller,date,percent'.", HelpName = "file" };
        Option<string?> folder = new("--out")
            { Description = "Where to write the accounts: accounts.xlsx and accounts.pdf.", HelpName = "folder" };
        use.AcceptOnlyFromAmong("residential", "other");
        Job job = new(
            "accounts",
            "Add up the water of a year at one site or many: planned, expected, metered, the minimum and the budget.",
            "valvewright accounts demo/quarry-hill demo/claybank",
            "valvewright accounts demo --year 2026 --today 2026-11-28 --out accounts");
        job.Arguments.Add(sites);
        foreach (Option option in new Option[] { store, year, today, use, done, folder }) job.Options.Add(option);
        return job.Does((parse, sheet, _) =>
        {
            LocalDate now = parse.GetValue(today)
                ?? SystemClock.Instance.GetCurrentInstant().InZone(DateTimeZoneProviders.Tzdb.GetSystemDefault()).Date;
            int asked = parse.GetValue(year) ?? now.Year;
            if (asked < FirstYear || asked > now.Year)
            {
                throw new ProblemsException(new Problem(
                    year.Name, 0, 0, $"{asked}", $"{FirstYear} to {now.Year}", null, "accounts are for a year that has begun"));
            }

            (string[] folders, string? file) = (parse.GetValue(sites)!, parse.GetValue(store));
            SitesGiven.RequireOneSource(folders, file, "accounts are for sites");
            WaterGiven given = new(sheet.Progress);
            ListOf<WaterKnown> known = file is null ? given.OfFolders(folders, parse.GetValue(done)) : given.OfStore(file);
            SitesGiven.RequireNames(known.Select(k => k.Site.Name));
            return Write(sheet, WaterAccounts.Of(known, asked, now,
                parse.GetValue(use) == "residential" ? LandscapeUse.Residential : LandscapeUse.NonResidential), parse.GetValue(folder));
        });
    }

    private static int Write(Sheet sheet, WaterAccounts accounts, string? folder)
    {
        AccountsPages pages = new(sheet, accounts);
        pages.Show();
        if (folder is not null)
        {
            new WholeFiles(folder)
                .Add("accounts.xlsx", Workbook.Of(pages.Summary(), pages.Sites()))
                .Add("accounts.pdf", TablePaper.Pdf(
                    pages.Paper(), CardPdf.UsualPaper(pages.Units), sheet.Language == Language.Spanish ? "es" : "en"))
                .Write();
            sheet.Say();
            sheet.Say($"Written to {Printable.Of(folder)}: accounts.xlsx and accounts.pdf.");
        }

        sheet.Answer(accounts);
        return accounts.Sites.Any(s => s.Flags.Any(f => f != AccountRemark.NothingRecorded)) ? ExitCode.AnswerIsNo : ExitCode.Done;
    }
}
