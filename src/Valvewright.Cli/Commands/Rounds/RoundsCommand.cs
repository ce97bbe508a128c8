using System.CommandLine;
using NodaTime.Text;
using Valvewright.Cli.Output;
using Valvewright.Files.Cards.Pdf;
using Valvewright.Files.Rounds;
using Valvewright.Files.Texts;
using Valvewright.Work.Rounds;
using Valvewright.Work.Search.Rounds;

namespace Valvewright.Cli.Commands.Rounds;

/// <summary>What is due at many sites, the routes of the next days, and this year's advice.</summary>
internal static class RoundsCommand
{
    private const int DaysAhead = 14;

    public static Job Make()
    {
        RoundsArguments arguments = new();
        Job job = new(
            "rounds",
            "List what is due at many sites and why, and plan the day routes of the people who do it.",
            "valvewright rounds demo/quarry-hill demo/claybank --start 38.35,48.80",
            "valvewright rounds demo/quarry-hill --advice");
        arguments.AddTo(job);
        return job.Does((parse, sheet, _) => Run(arguments, parse, sheet));
    }

    private static int Run(RoundsArguments arguments, ParseResult parse, Sheet sheet)
    {
        LocalDate today = parse.GetValue(arguments.Today)
            ?? SystemClock.Instance.GetCurrentInstant().InZone(DateTimeZoneProviders.Tzdb.GetSystemDefault()).Date;
        SitesGiven given = new(today, sheet.Language, sheet.Progress);
        string[] folders = parse.GetValue(arguments.Sites)!;
        string? store = parse.GetValue(arguments.Store);
        SitesGiven.RequireOneSource(folders, store, "rounds are for sites");
        ListOf<GivenSite> sites = store is null ? given.OfFolders(folders, parse.GetValue(arguments.Done)) : given.OfStore(store);
        SitesGiven.RequireNames(sites.Select(s => s.Facts.Site.Name));
        string? folder = parse.GetValue(arguments.Out);
        return parse.GetValue(arguments.Advice) ? Advise(sheet, sites, today, folder) : List(arguments, parse, sheet, sites, today, folder);
    }

    private static int List(
        RoundsArguments arguments, ParseResult parse, Sheet sheet, ListOf<GivenSite> sites, LocalDate today, string? folder)
    {
        ListOf<LocalDate> days = arguments.DaysFrom(parse, today);
        ListOf<DueItem> due = DueList.Of(
            sites.Select(s => s.Facts), today, LocalDate.Max(days[^1], today.PlusDays(DaysAhead)), new DueMinutes());
        ListOf<NamedPlace> places = sites.Select(s => new NamedPlace(s.Facts.Site.Name, s.Facts.Site.Place)).ToListOf();
        RoundsPlan? plan = null;
        if (arguments.WantsRoutes(parse))
        {
            sheet.Progress.Step("Finding the routes");
            RoundsRequest request = arguments.Request(parse, due, places, days);
            plan = RoundsPlan.Of(request);
            if (folder is not null)
            {
                Write(sheet, request, plan, PaperOf(sites), folder);
            }
        }

        RoundsPages.Write(sheet, sites, due, plan, today);
        if (folder is not null && plan?.Rounds.Count > 0)
        {
            sheet.Say();
            sheet.Say($"Written to {Printable.Of(folder)}: rounds.pdf and a picture of each day.");
        }

        sheet.Answer(new RoundsAnswer(today, due, plan?.Rounds ?? [], plan?.Left ?? []));
        return ExitCode.Done;
    }

    private static PaperSize PaperOf(ListOf<GivenSite> sites) => CardPdf.UsualPaper(sites[0].Facts.Site.Units);

    private static void Write(Sheet sheet, RoundsRequest request, RoundsPlan plan, PaperSize paper, string folder)
    {
        ListOf<RunDay> days = plan.Rounds.Select(r => RoundsPages.Day(sheet, request, r)).ToListOf();
        if (days.Count == 0)
        {
            return;
        }

        WholeFiles files = new WholeFiles(folder)
            .Add("rounds.pdf", RunSheet.Pdf(days, paper, sheet.In("Rounds"), sheet.Language == Language.Spanish ? "es" : "en"));
        for (int i = 0; i < days.Count; i++)
        {
            DayRound round = plan.Rounds[i];
            files.Add($"round-{LocalDatePattern.Iso.Format(round.On)}-{round.Person}.svg", RunSheet.Svg(days[i]));
        }

        files.Write();
    }

    private static int Advise(Sheet sheet, ListOf<GivenSite> sites, LocalDate today, string? folder)
    {
        AdviceSheet advice = new(today,
            sites.SelectMany(s => s.Facts.Advice.Select(a => AdviceLine.Of(s.Facts.Site.Name, a))).ToListOf(),
            sites.Where(s => s.NoAdvice is not null).Select(s => new AdviceMissing(s.Facts.Site.Name, s.NoAdvice!)).ToListOf());
        RoundsPages.Write(sheet, advice.Advice, advice.Missing, today);
        if (folder is not null)
        {
            new WholeFiles(folder).Add("advice.ics", advice.AsCalendar(sheet.Language)).Add("advice.json", advice.AsJson()).Write();
            sheet.Say();
            sheet.Say($"Written to {Printable.Of(folder)}: advice.ics and advice.json.");
        }

        sheet.Answer(advice);
        return ExitCode.Done;
    }

    private sealed record RoundsAnswer(LocalDate Today, ListOf<DueItem> Due, ListOf<DayRound> Rounds, ListOf<LeftOnList> Left);
}
