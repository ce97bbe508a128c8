using Valvewright.Engine.Controllers;

namespace Valvewright.Files.Cards.Pdf;

/// <summary>How a text in the grid is set.</summary>
internal enum Role
{
    /// <summary>Set.</summary>
    Setting,

    /// <summary>Set to empty something.</summary>
    Empty,

    /// <summary>Compared.</summary>
    Total,

    /// <summary>Explains.</summary>
    Note,
}

/// <summary>A text of a cell.</summary>
internal readonly record struct Part(string Text, Role Role);

/// <summary>A row of the grid: a name, and a cell for each program.</summary>
/// <param name="Number">A number that stands in front of the name, if any.</param>
/// <param name="Name">The row's name.</param>
/// <param name="Cells">Each program's texts, one below the other.</param>
internal sealed record GridRow(string? Number, string Name, IReadOnlyList<IReadOnlyList<Part>> Cells);

/// <summary>Rows that belong together, under a heading of their own if they have one.</summary>
internal sealed record GridGroup(string? Heading, string? Help, IReadOnlyList<GridRow> Rows, bool Keyed);

/// <summary>The table of a card: a column for each program, rows in keying order from the top, then what to check against.</summary>
internal static class Grid
{
    /// <summary>What is set: watering days, start times, run times.</summary>
    public static IReadOnlyList<GridGroup> Settings(CardContent card, IReadOnlyList<ProgramStep> programs, CardPhrases say) =>
    [
        new GridGroup(null, null, [new GridRow(null, say["waterDays"], [.. programs.Select(p => WaterDays(p, say))])], true),
        new GridGroup(null, null, [.. Starts(card, programs, say)], true),
        new GridGroup(say["runTimes"], say.HasPercent ? say["atHundred"] : null,
            [.. card.Stations.Select(s => Station(s, programs, say))], true),
    ];

    /// <summary>The sums of each program.</summary>
    public static GridGroup Totals(IReadOnlyList<ProgramStep> programs, CardPhrases say)
    {
        GridRow Row(string name, Func<ProgramTotals, string> text) =>
            new(null, say[name], [.. programs.Select(p => One(text(p.Totals), Role.Total))]);
        return new GridGroup(
            say["totals"],
            null,
            [
                Row("totals.run", say.RunAndStarts),
                Row("totals.day", t => say.Sum(t.DaySeconds)),
                Row("totals.closes", t => t.LastCloses is { } closes ? say.TimeOfSeconds(closes) : say["none"]),
                Row("totals.waterRun", t => say.Volume(t.RunLitres)),
                Row("totals.waterWeek", t => say.Volume(t.WeekLitres)),
            ],
            false);
    }

    /// <summary>The next dates, as many as asked for.</summary>
    public static GridGroup Next(CardContent card, IReadOnlyList<ProgramStep> programs, CardPhrases say, int rows)
    {
        if (card.NextDays.Count == 0)
        {
            return new GridGroup(say["next"], say.Fill("next.none", ("n", CardContent.DaysAhead)), [], false);
        }

        return new GridGroup(say["next"], say["next.help"], [.. card.NextDays.Take(rows).Select(d => Day(d, card, programs, say))], false);
    }

    private static IReadOnlyList<Part> One(string text, Role role) => [new Part(text, role)];

    private static List<Part> WaterDays(ProgramStep step, CardPhrases say)
    {
        List<Part> parts = [new Part(say.Days(step.Program.Days), Role.Setting)];
        if (say.UntilFirst(step) is { } until)
        {
            parts.Add(new Part(until, Role.Setting));
            parts.Add(new Part(say.UntilFirstNote(step)!, Role.Note));
        }

        return parts;
    }

    private static IEnumerable<GridRow> Starts(CardContent card, IReadOnlyList<ProgramStep> programs, CardPhrases say)
    {
        int used = programs.Max(p => p.Program.StartTimes.Count);
        for (int i = 0; i < used; i++)
        {
            int start = i;
            yield return new GridRow(null, say.Fill("start", ("n", i + 1)), [.. programs.Select(p => start < p.Program.StartTimes.Count
                ? One(say.Time(p.Program.StartTimes[start]), Role.Setting)
                : One(start < card.Profile.StartTimesPerProgram ? say["clear"] : "", Role.Empty))]);
        }

        int held = card.Profile.StartTimesPerProgram;
        if (held > used)
        {
            string numbers = CardPhrases.Ranges(Enumerable.Range(used + 1, held - used));
            yield return new GridRow(null, say.Fill("start", ("n", numbers)), [.. programs.Select(_ => One(say["clear"], Role.Empty))]);
        }
    }

    private static GridRow Station(StationName station, IReadOnlyList<ProgramStep> programs, CardPhrases say) => new(
        $"{station.Station}",
        CardFonts.Coverage.Printable(say.Zone(station)),
        [.. programs.Select(p => p.Program.RunTimes.FirstOrDefault(r => r.Station == station.Station) is { Seconds: > 0 } run
            ? One(say.RunTime(run.Seconds), Role.Setting)
            : One(say["zero"], Role.Empty))]);

    private static GridRow Day(ExpectedDay day, CardContent card, IReadOnlyList<ProgramStep> programs, CardPhrases say)
    {
        string percent = day.Percent == card.PercentNow ? "" : $"  ({say.Words.Percent(day.Percent)})";
        return new GridRow(null, say.Date(day.Date) + percent,
            [.. programs.Select(p => day.Programs.FirstOrDefault(e => e.Letter == p.Program.Letter) is { } expected
            ? One(say.Expected(expected), Role.Total)
            : One("–", Role.Total))]);
    }
}
