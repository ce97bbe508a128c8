using NodaTime.Text;
using Valvewright.Cli.Commands.Measured;
using Valvewright.Cli.Output;
using Valvewright.Engine.Quantities;
using Valvewright.Files.Tables;
using Valvewright.Work.Accounts;

namespace Valvewright.Cli.Commands.Accounts;

/// <summary>Accounts of water on a terminal, as sheets of a workbook, and on paper.</summary>
internal sealed class AccountsPages(Sheet sheet, WaterAccounts accounts)
{
    private static readonly Sentence[] Figures = [">planned", ">expected", ">metered", ">minimum", ">budget"];

    /// <summary>Units of the sums: US customary where every site has them.</summary>
    public UnitSystem Units { get; } = accounts.Sites.All(s => s.Units == UnitSystem.UsCustomary) ? UnitSystem.UsCustomary
        : UnitSystem.Metric;

    private Sentence Title => $"Accounts of water, {accounts.Year}";

    private ListOf<Sentence> Notes =>
    [
        $"Planned: the plan from 1 January to 31 December. Expected: settings as visits left them, to {LocalDatePattern.Iso
            .Format(accounts.Until)}.",
        "Metered: from the first to the last reading of the year. Far above expected: more than 30% between the same readings.",
        "Minimum: perfect foresight, evenly watered. Budget: MAWA for the mean ETo of the weather record.",
        "Local ordinances differ and change: check yours.",
    ];

    private IEnumerable<(Sentence Figure, SumOfSites Sum)> Sums => Figures.Zip(
        [accounts.Planned, accounts.Expected, accounts.Metered, accounts.Minimum, accounts.Budget]);

    /// <summary>Puts them on the terminal's sheet.</summary>
    public void Show()
    {
        FieldAmounts amounts = new(Units, sheet.Language);
        sheet.Heading(Title);
        Table summary = new("water", $">{amounts.VolumeUnit}", ">sites", ">left out");
        foreach ((Sentence figure, SumOfSites sum) in Sums)
        {
            summary.Row(Word(figure), Or(amounts, sum.M3), $"{sum.Sites}", $"{sum.LeftOut}");
        }

        sheet.Show(summary);
        sheet.Heading("Sites");
        Table table = new([(Sentence)"site", "unit", .. Figures]);
        foreach (SiteAccount site in accounts.Sites)
        {
            table.Row(Line(site));
        }

        sheet.Show(table);
        foreach (SiteAccount site in accounts.Sites)
        {
            sheet.Say();
            sheet.Say($"{site.Site}");
            foreach (Sentence remark in Remarks(site))
            {
                sheet.Say($"- {remark}", 2);
            }
        }

        sheet.Say();
        foreach (Sentence note in Notes)
        {
            sheet.Say(note);
        }
    }

    /// <summary>The sums as a sheet of a workbook.</summary>
    public RowsOfSheet Summary() => new(
        sheet.In("Summary"), [.. new Sentence[] { "water", "unit", "sum", ">sites", ">left out" }.Select(Word)],
        [.. Sums.Select(s => new object?[]
            { Word(s.Figure), new FieldAmounts(Units, sheet.Language).VolumeUnit, Number(Units, s.Sum.M3), (double)s.Sum.Sites,
                (double)s.Sum.LeftOut })]);

    /// <summary>One row a site as a sheet of a workbook.</summary>
    public RowsOfSheet Sites() => new(
        sheet.In("Sites"), [.. ((Sentence[])["site", "unit", .. Figures, "remarks"]).Select(Word)],
        [.. accounts.Sites.Select(s => new object?[]
            { s.Site, Amounts(s).VolumeUnit, Number(s.Units, s.PlannedM3), Number(s.Units, s.ExpectedM3), Number(s.Units, s.MeteredM3),
                Number(s.Units, s.MinimumM3), Number(s.Units, s.BudgetM3), Together(s) })]);

    /// <summary>The same for paper.</summary>
    public PaperOfTables Paper()
    {
        FieldAmounts amounts = new(Units, sheet.Language);
        ListOf<string> sums = [.. new Sentence[] { "water", $">{amounts.VolumeUnit}", ">sites", ">left out" }.Select(s => sheet.In(s))];
        ListOf<string> sites = [.. new Sentence[] { "site", "unit" }.Concat(Figures).Select(s => sheet.In(s))];
        return new PaperOfTables(
            sheet.In(Title),
            [
                new PaperTable("", sums, Sums.Select(s => new PaperRow(
                    [Word(s.Figure), Or(amounts, s.Sum.M3), $"{s.Sum.Sites}", $"{s.Sum.LeftOut}"], "")).ToListOf()),
                new PaperTable(sheet.In("Sites"), sites,
                    accounts.Sites.Select(s => new PaperRow([.. Line(s)], Together(s))).ToListOf()),
            ],
            Notes.Select(n => sheet.In(n)).ToListOf());
    }

    private string[] Line(SiteAccount site)
    {
        FieldAmounts amounts = Amounts(site);
        return [site.Site, amounts.VolumeUnit, Or(amounts, site.PlannedM3), Or(amounts, site.ExpectedM3), Or(amounts, site.MeteredM3),
            Or(amounts, site.MinimumM3), Or(amounts, site.BudgetM3)];
    }

    private IEnumerable<Sentence> Remarks(SiteAccount site) => AccountWords.Flags(site, Amounts(site), accounts.Year)
        .Concat(AccountWords.Gaps(site, Amounts(site), accounts));

    private string Together(SiteAccount site) => string.Join(" ", Remarks(site).Select(r => sheet.In(r)));

    private string Word(Sentence heading) => sheet.In(heading).TrimStart('>');

    private FieldAmounts Amounts(SiteAccount site) => new(site.Units, sheet.Language);

    private static string Or(FieldAmounts amounts, double? m3) => m3 is { } known ? amounts.Volume(known) : "-";

    private static double? Number(UnitSystem units, double? m3) =>
        units == UnitSystem.UsCustomary ? m3 * 1000 / UsUnits.LitresPerGallon : m3;
}
