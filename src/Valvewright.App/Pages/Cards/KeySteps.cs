using System.Globalization;
using Valvewright.Engine.Controllers;
using Valvewright.Files.Cards;

namespace Valvewright.App.Pages.Cards;

/// <summary>One thing to set, with a place to tick.</summary>
/// <param name="Key">Names it among all lines of a card; it changes with the value, so that a tick never stands for another one.</param>
/// <param name="Name">What it is.</param>
/// <param name="Value">What to set; empty where the note says it all.</param>
/// <param name="Note">More about it.</param>
/// <param name="Empties">Whether it empties something, rather than setting it.</param>
/// <param name="IsOfDay">Whether it says another thing on another day.</param>
public sealed record KeyLine(string Key, string Name, string Value, string? Note = null, bool Empties = false, bool IsOfDay = false);

/// <summary>Lines under one heading, in the order in which they are set.</summary>
/// <param name="Number">Number of the step on the card, on paper as here.</param>
/// <param name="Title">Its heading.</param>
/// <param name="Lines">Its lines.</param>
/// <param name="Program">The program that it is; null for other steps.</param>
public sealed record KeyStep(int Number, string Title, ListOf<KeyLine> Lines, ProgramStep? Program = null)
{
    /// <summary>What to know before it is done.</summary>
    public ListOf<string> Cautions { get; init; } = [];
}

/// <summary>A card as steps to set and tick off: the same steps with the same numbers as on paper.</summary>
public static class KeySteps
{
    /// <summary>The steps of a card.</summary>
    public static ListOf<KeyStep> Of(CardContent card, CardPhrases say)
    {
        List<KeyStep> steps = [];
        void Add(string title, ListOf<KeyLine> lines, ProgramStep? program = null) =>
            steps.Add(new KeyStep(steps.Count + 1, title, lines, program));

        Add(say["clock"], [new KeyLine($"clock {card.Clock.Kind} {card.Clock.Now}", "", "", say.Clock())]);
        steps[0] = steps[0] with { Cautions = say.CautionsAtClock().ToListOf() };
        foreach (ProgramStep program in card.Programs)
        {
            Add(say.Fill("program", ("letter", program.Program.Letter)),
                [.. Days(card, program, say), .. Starts(program, say), .. Runs(card, program, say)], program);
        }

        if (say.Unused() is { } unused)
        {
            Add(unused, [new KeyLine($"unused {string.Concat(card.UnusedPrograms)}", say["startTimes"], say["clear"], null, true)]);
        }

        if (say.EmptyStations() is { } empty)
        {
            Add(empty, [new KeyLine($"empty {string.Join(' ', card.EmptyStations)}", say["runTimes"], say["zero"], null, true)]);
        }

        if (say.HasPercent || card.Visits.Count > 0)
        {
            Add(say["percent"], [
                new KeyLine($"percent {card.PercentNow}", say["percent"], card.PercentNow == 0 ? say["off"] : say.Percent(),
                    card.PercentNow == 0 ? say.Percent() : null)]);
        }

        Add(say["check"], [new KeyLine("check", say["check"], card.Check, say["check.help"])]);
        return steps.ToListOf();
    }

    private static IEnumerable<KeyLine> Days(CardContent card, ProgramStep step, CardPhrases say)
    {
        string days = say.Days(step.Program.Days);
        yield return new KeyLine($"{step.Program.Letter} days {days}", say["waterDays"], days);
        if (say.UntilFirst(step) is { } until)
        {
            yield return new KeyLine(
                $"{step.Program.Letter} first {Iso(card.From)} {step.DaysUntilFirst}", "", until, say.UntilFirstNote(step), IsOfDay: true);
        }
    }

    private static IEnumerable<KeyLine> Starts(ProgramStep step, CardPhrases say)
    {
        ListOf<LocalTime> starts = step.Program.StartTimes;
        for (int i = 0; i < starts.Count; i++)
        {
            yield return new KeyLine(
                $"{step.Program.Letter} start {i + 1} {starts[i]:HH:mm:ss}", say.Fill("start", ("n", i + 1)), say.Time(starts[i]));
        }

        if (step.EmptyStarts > 0)
        {
            string places = CardPhrases.Ranges(Enumerable.Range(starts.Count + 1, step.EmptyStarts));
            yield return new KeyLine($"{step.Program.Letter} start {places}", say.Fill("start", ("n", places)), say["clear"], null, true);
        }
    }

    private static IEnumerable<KeyLine> Runs(CardContent card, ProgramStep step, CardPhrases say) => card.Stations.Select(station =>
    {
        int seconds = step.Program.RunTimes.FirstOrDefault(r => r.Station == station.Station).Seconds;
        return new KeyLine(
            $"{step.Program.Letter} station {station.Station} {seconds}",
                string.Create(CultureInfo.InvariantCulture, $"{station.Station}  {say.Zone(station)}"),
            seconds == 0 ? say["zero"] : say.RunTime(seconds), null, seconds == 0);
    });

    private static string Iso(LocalDate date) => CardAddress.Write(date);
}
