using NodaTime.Text;
using Valvewright.Cli.Output;
using Valvewright.Files.Rounds;
using Valvewright.Work.Rounds;
using Valvewright.Work.Search.Rounds;

namespace Valvewright.Cli.Commands.Rounds;

/// <summary>The pages of rounds.</summary>
internal static class RoundsPages
{
    private static readonly LocalTimePattern Clock = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    /// <summary>What is due, the day routes, and what they leave.</summary>
    public static void Write(Sheet sheet, ListOf<GivenSite> sites, ListOf<DueItem> due, RoundsPlan? plan, LocalDate today)
    {
        SiteWords words = Words(sheet, sites);
        sheet.Heading($"Due on {words.Date(today)}");
        Table list = new("site, controller", "why", "by", ">min", $">worth, {(words.Us ? "gal" : "L")}", "risk");
        foreach (DueItem item in due)
        {
            list.Row(
                $"{item.Site}, {item.Controller}", sheet.In(item.Why), Iso(item.Latest), $"{item.Minutes}",
                item.WorthLitres is { } litres ? words.Litres(litres) : "-", sheet.In(Risk(item.Risk)));
        }

        if (due.Count > 0) sheet.Show(list);
        else sheet.Say("Nothing is due.");
        foreach (GivenSite site in sites.Where(s => s.Facts.Plan is null))
        {
            sheet.Say($"{site.Facts.Site.Name}: no saved plan, so its season is not known.");
        }

        if (plan is null)
        {
            if (due.Count > 0) sheet.Say("Give --start for day routes.");
            return;
        }

        foreach (DayRound round in plan.Rounds) Show(sheet, words, round);
        if (plan.Left.Count == 0) return;
        sheet.Heading("Stays on the list");
        Table left = new("site, controller", "why", "reason");
        foreach (LeftOnList item in plan.Left)
        {
            left.Row($"{item.Item.Site}, {item.Item.Controller}", sheet.In(item.Item.Why), sheet.In(Reason(item.Reason)));
        }

        sheet.Show(left);
    }

    /// <summary>This year's advice.</summary>
    public static void Write(Sheet sheet, ListOf<AdviceLine> lines, ListOf<AdviceMissing> missing, LocalDate today)
    {
        sheet.Heading($"Advice on {Iso(today)}");
        foreach (AdviceLine line in lines) sheet.Say($"{line.Site}, {line.In(sheet.Language)}", 2);
        foreach (AdviceMissing site in missing) sheet.Say($"{site.Site}: no advice, {site.Why}.", 2);
    }

    /// <summary>A day for paper.</summary>
    public static RunDay Day(Sheet sheet, RoundsRequest request, DayRound round)
    {
        RunPoint start = new("", sheet.In("start"), request.Start.Place, false), end = new("", sheet.In("end"), request.End.Place, false);
        return new RunDay(
            sheet.In(Title(round)), sheet.In(Summary(round)),
            round.Stops.Select(s => new RunStop(
                $"{s.Number}", Clock.Format(s.Begins), s.Site,
                s.Items.Select(i => new RunTick($"{i.Controller}: {sheet.In(i.Why)}", $"{i.Minutes} min")).ToListOf())).ToListOf(),
            round.Stops.Select(s => new RunPoint($"{s.Number}", s.Site, s.Place, s.Items.Any(i => i.Kind == DueKind.Fault)))
                .Prepend(start).Append(end).ToListOf(),
            sheet.In("By coordinates; roads are not drawn."));
    }

    private static void Show(Sheet sheet, SiteWords words, DayRound round)
    {
        sheet.Heading(Title(round));
        sheet.Say(Summary(round));
        Table table = new("at", ">stop", "site", "what to do", ">min");
        foreach (StopOfRound stop in round.Stops)
        {
            string what = string.Join("; ", stop.Items.Select(i => $"{i.Controller}: {sheet.In(i.Why)}"));
            long minutes = (stop.Ends.TickOfDay - stop.Begins.TickOfDay) / NodaConstants.TicksPerMinute;
            table.Row(Clock.Format(stop.Begins), $"{stop.Number}", stop.Site, what, $"{minutes}");
        }

        sheet.Show(table);
    }

    private static Sentence Title(DayRound round) => $"{Iso(round.On)}, person {round.Person}";

    private static Sentence Summary(DayRound round) => round.Stops.Count == 1
        ? (Sentence)$"1 stop, {round.Km:0} km. Leave {Clock.Format(round.Leaves)}, back {Clock.Format(round.Back)}."
        : (Sentence)$"{round.Stops.Count} stops, {round.Km:0} km. Leave {Clock.Format(round.Leaves)}, back {Clock.Format(round.Back)}.";

    private static Sentence Risk(DueRisk risk) => risk switch { DueRisk.High => "high", DueRisk.Medium => "medium", _ => "low" };

    private static Sentence Reason(NotReached reason) => reason switch
    {
        NotReached.TooEarly => "too early",
        NotReached.DatesApart => "needs another day than the rest",
        NotReached.PromisedOtherwise => "promised for another date",
        NotReached.TooFar => "does not fit into a day",
        _ => "no time left",
    };

    private static SiteWords Words(Sheet sheet, ListOf<GivenSite> sites) => SiteWords.Of(sites[0].Facts.Site, sheet);

    private static string Iso(LocalDate date) => LocalDatePattern.Iso.Format(date);
}
