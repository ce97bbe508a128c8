using System.Globalization;
using System.Text;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Cards;

/// <summary>A card as plain text of 80 columns, for the terminal and for messages.</summary>
public static class CardText
{
    /// <summary>No line is longer than this.</summary>
    public const int Columns = 80;

    private const int Indent = 4;
    private const int LabelWidth = 20;

    /// <summary>Writes a card.</summary>
    public static string Write(CardContent card, Language language)
    {
        ArgumentNullException.ThrowIfNull(card);
        CardPhrases say = new(card, language);
        TextPage page = new();
        page.Sides(card.Controller, card.Site);
        page.Sides(say.Holds(), say.Fill("from", ("date", say.DateAndYear(card.From))));
        page.Rule('=');
        foreach (string said in new[] { say.Fails(), say.New() }.OfType<string>())
        {
            page.Paragraph(said);
        }

        page.Line(say["cautions"]);
        foreach (string caution in say.CautionsBefore())
        {
            page.Paragraph(caution);
        }

        page.Rule('-');
        int step = 1;
        page.Step(step++, say["clock"]);
        page.Paragraph(say.Clock());
        foreach (string caution in say.CautionsAtClock())
        {
            page.Paragraph(caution);
        }

        foreach (ProgramStep program in card.Programs)
        {
            page.Step(step++, say.Fill("program", ("letter", program.Program.Letter)));
            WriteProgram(page, card, program, say);
        }

        page.Rule('-');
        foreach (string? line in (string?[])[say.Unused(), say.EmptyStations()])
        {
            if (line is not null)
            {
                page.Step(step++, line);
            }
        }

        if (say.HasPercent || card.Visits.Count > 0)
        {
            WritePercent(page, card, say, step++);
        }

        page.Step(step, $"{say["check"]}  {card.Check}");
        page.Paragraph(say["check.help"]);
        page.Rule('-');
        WriteNext(page, card, say);
        page.Rule('-');
        page.Line(say["qr"] + ":");
        page.Broken(card.SettingsText);
        return page.ToString();
    }

    private static void WriteProgram(TextPage page, CardContent card, ProgramStep step, CardPhrases say)
    {
        page.Labelled(say["waterDays"], say.Days(step.Program.Days));
        if (say.UntilFirst(step) is { } until)
        {
            page.Labelled("", $"{until} ({say.UntilFirstNote(step)})");
        }

        string label = say["startTimes"];
        for (int i = 0; i < step.Program.StartTimes.Count; i++)
        {
            page.Labelled(label, $"{i + 1,2}  {say.Time(step.Program.StartTimes[i])}");
            label = "";
        }

        if (say.EmptyStarts(step) is { } clear)
        {
            page.Labelled(label, clear);
        }

        if (say.HasPercent)
        {
            page.Labelled(say["runTimes"], say["atHundred"]);
        }

        label = say.HasPercent ? "" : say["runTimes"];
        foreach (StationName station in card.Stations)
        {
            RunTime run = step.Program.RunTimes.FirstOrDefault(r => r.Station == station.Station);
            string time = run.Seconds == 0 ? say["zero"] : say.RunTime(run.Seconds);
            page.Leader(label, $"{station.Station,2}  {say.Zone(station)}", time);
            label = "";
        }

        WriteTotals(page, step.Totals, say);
    }

    private static void WriteTotals(TextPage page, ProgramTotals totals, CardPhrases say)
    {
        string[] sums =
        [
            $"{say["totals.run"]}: {say.RunAndStarts(totals)}",
            $"{say["totals.day"]}: {say.Sum(totals.DaySeconds)}",
            $"{say["totals.closes"]}: {(totals.LastCloses is { } closes ? say.TimeOfSeconds(closes) : say["none"])}",
            $"{say["totals.waterRun"]}: {say.Volume(totals.RunLitres)}",
            $"{say["totals.waterWeek"]}: {say.Volume(totals.WeekLitres)}",
        ];
        page.Labelled(say["totals"], string.Join("; ", sums.Select(Unbroken)));
    }

    private static void WritePercent(TextPage page, CardContent card, CardPhrases say, int step)
    {
        page.Step(step, $"{say["percent"]}: {say.Percent()}");
        if (card.Visits.Count > 0)
        {
            string visits = string.Join("; ", card.Visits
                .Select(v => Unbroken($"{say.Fill("percent.from", ("date", say.DayAndMonth(v.Date)))} {say.Percent(v.Percent)}")));
            page.Paragraph($"{say["percent.visits"]}: {visits}");
            foreach (VisitChange change in card.Changes)
            {
                page.Paragraph($"{say["changes"]}, {say.Change(change)}");
            }

            foreach (string caution in say.CautionsAtVisits())
            {
                page.Paragraph(caution);
            }
        }
    }

    private static void WriteNext(TextPage page, CardContent card, CardPhrases say)
    {
        page.Line(say["next"]);
        page.Paragraph(say["next.help"]);
        foreach (ExpectedDay day in card.NextDays)
        {
            string percent = day.Percent == card.PercentNow ? "" : $" ({say.Words.Percent(day.Percent)})";
            page.Labelled(say.Date(day.Date),
                string.Join("; ", day.Programs.Select(p => Unbroken($"{p.Letter} {say.Expected(p)}"))) + percent);
        }

        if (card.NextDays.Count == 0)
        {
            page.Paragraph(say.Fill("next.none", ("n", CardContent.DaysAhead)));
        }
    }

    private static string Unbroken(string words) => words.Replace(' ', '\u00a0');

    /// <summary>Lines of text that keep to the columns.</summary>
    private sealed class TextPage
    {
        private readonly StringBuilder text = new();

        public void Line(string line) => text.Append(line.TrimEnd()).Append('\n');

        public void Rule(char sign) => Line(new string(sign, Columns));

        public void Sides(string left, string right)
        {
            (left, right) = (OneLine(left), OneLine(right));
            int gap = Columns - Width(left) - Width(right);
            if (gap >= 2)
            {
                Line(left + new string(' ', gap) + right);
                return;
            }

            Wrapped(left, 0);
            Wrapped(right, 0);
        }

        public void Step(int number, string title) =>
            Wrapped(title, Indent, number.ToString(CultureInfo.InvariantCulture).PadRight(Indent));

        public void Paragraph(string words) => Wrapped(words, Indent);

        public void Labelled(string label, string words) =>
            Wrapped(words, Indent + LabelWidth, new string(' ', Indent) + OneLine(label).PadRight(LabelWidth));

        public void Leader(string label, string left, string right)
        {
            int room = Columns - Indent - LabelWidth - Width(right) - 2;
            string cut = Cut(OneLine(left), room);
            Labelled(label, $"{cut} {new string('.', room - Width(cut))}\u00a0{Unbroken(right)}");
        }

        public void Broken(string line)
        {
            for (int at = 0; at < line.Length; at += Columns - Indent)
            {
                Line(string.Concat(new string(' ', Indent), line.AsSpan(at, Math.Min(Columns - Indent, line.Length - at))));
            }
        }

        public override string ToString() => text.Replace('\u00a0', ' ').ToString();

        private void Wrapped(string words, int indent, string? lead = null)
        {
            string line = lead ?? new string(' ', indent);
            bool empty = true;
            foreach (string word in OneLine(words).Split(' '))
            {
                string rest = word;
                if (!empty && Width(line) + 1 + Width(rest) > Columns)
                {
                    Line(line);
                    line = new string(' ', indent);
                    empty = true;
                }

                while (Width(line) + Width(rest) > Columns)
                {
                    string part = rest[..Math.Min(rest.Length, Columns - Width(line))];
                    Line(line + part);
                    rest = rest[part.Length..];
                    line = new string(' ', indent);
                }

                line += empty ? rest : " " + rest;
                empty = false;
            }

            Line(line);
        }

        private static int Width(string words) => words.Length;

        private static string Cut(string words, int room) => Width(words) <= room ? words : words[..(room - 1)] + "…";

        private static string OneLine(string words) => string.Concat(words.Select(c => char.IsControl(c) ? ' ' : c));
    }
}
