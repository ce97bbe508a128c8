using Valvewright.Engine.Plans;

namespace Valvewright.Files.Cards.Pdf;

/// <summary>The strips of a card outside its table: head, cautions, steps, percent, check.</summary>
/// <param name="card">The card.</param>
/// <param name="say">Its words.</param>
/// <param name="code">Its code.</param>
/// <param name="measure">Measures type.</param>
/// <param name="sizes">The sizes of type and boxes.</param>
/// <param name="left">Left edge, points.</param>
/// <param name="width">Width of the strips, points.</param>
/// <param name="isFull">Whether cautions have no room at their steps: they are then together, next to the code.</param>
internal sealed class StepBands(
    CardContent card, CardPhrases say, QrPicture code, Sheet measure, Sizes sizes, double left, double width, bool isFull)
{
    private const double ThickRule = 2.5;

    /// <summary>Names of controller and site, and what it holds.</summary>
    public Band Head(int page, int pages)
    {
        Type small = sizes.Step;
        string about = say.Fill("from", ("date", say.DateAndYear(card.From))) + (
            pages > 1 ? ". " + say.Fill("page", ("page", page), ("pages", pages)) : "");
        string held = card.Verdict is { Passed: true } ? $"{say.Holds()}. {say["verdict.passes"]}" : say.Holds();
        string[] right =
        [
            CardFonts.Coverage.Printable(card.Site),
            .. sizes.Dense ? new[] { $"{held}. {about}" } : [held, about],
        ];
        double rightRoom = width * 0.5;
        string[] shown = [.. right.Select((r, i) => measure.Cut(r, small with { Bold = i == 0 }, rightRoom))];
        double titleRoom = width - shown.Select((r, i) => measure.Width(r, small with { Bold = i == 0 })).Max() - 2 * sizes.Pad;
        List<string> title = measure.Lines(CardFonts.Coverage.Printable(card.Controller), sizes.Title, titleRoom);
        string[] titleShown = title.Count <= 2 ? [.. title] : [title[0], measure.Cut(title[1] + "……", sizes.Title, titleRoom)];
        double height = Math.Max(titleShown.Length * sizes.Title.Line, right.Length * small.Line) + sizes.Gap / 2;
        return new Band(height + sizes.Gap, (sheet, y, _) =>
        {
            for (int i = 0; i < titleShown.Length; i++)
            {
                sheet.Text(titleShown[i], sizes.Title, left, y + i * sizes.Title.Line, titleRoom, sizes.Title.Line);
            }

            for (int i = 0; i < shown.Length; i++)
            {
                sheet.Text(shown[i], small with { Bold = i == 0 }, left, y + i * small.Line, width, small.Line, Side.Right);
            }

            sheet.Rule(left, y + height, width, ThickRule);
        });
    }

    /// <summary>That the plan fails, framed and with a striped edge, so that no one keys it in without being told; null where it does
    /// not.</summary>
    public Band? Fails() => say.Fails() is { } fails ? Framed(fails, isStriped: true) : null;

    /// <summary>What is new at this visit; null where nothing is.</summary>
    public Band? New() => say.New() is { } news ? Framed(news, isStriped: false) : null;

    private Band Framed(string words, bool isStriped)
    {
        const double Edge = 9;
        Type bold = sizes.Step with { Bold = true };
        double text = isStriped ? Edge + (2 * sizes.Pad) : sizes.Pad;
        List<string> lines = measure.Lines(CardFonts.Coverage.Printable(words), bold, width - text - sizes.Pad);
        double height = (lines.Count * bold.Line) + sizes.Gap;
        return new Band(height + sizes.Gap, (sheet, y, _) =>
        {
            sheet.Box(left, y, width, height, isStriped ? ThickRule : 0.7);
            for (double at = y; isStriped && at < y + height; at += 6)
            {
                sheet.Black(left, at, Edge, Math.Min(3, y + height - at));
            }

            Column(sheet, lines, bold, left + text, y + (sizes.Gap / 2));
        });
    }

    /// <summary>A step with its number, what it is about, what to do beside it, and a box to tick.</summary>
    public Band Step(int number, string title, params IEnumerable<string> words)
    {
        Type bold = sizes.Step with { Bold = true };
        double text = sizes.Mark + 2 * sizes.Pad;
        double room = width - text - sizes.Mark - 2 * sizes.Pad;
        List<string> titles = measure.Lines(title, bold, room);
        double beside = titles.Max(t => measure.Width(t, bold)) + 2 * sizes.Pad;
        List<string> lines = [.. words.SelectMany(w => measure.Lines(w, sizes.Step, room - beside))];
        double height = Math.Max(sizes.Mark, Math.Max(titles.Count, lines.Count) * bold.Line);
        return new Band(height + sizes.Gap, (sheet, y, _) =>
        {
            sheet.Disc(number, bold, left, y, sizes.Mark);
            sheet.Box(left + width - sizes.Mark, y, sizes.Mark, sizes.Mark, 1.5);
            double first = lines.Count > 1 || titles.Count > 1 ? y : y + (sizes.Mark - bold.Line) / 2;
            Column(sheet, titles, bold, left + text, first);
            Column(sheet, lines, sizes.Step, left + text + beside, first);
        });
    }

    /// <summary>The visits of the year as a row of boxes: date above, percent below.</summary>
    public Band? Visits()
    {
        if (card.Visits.Count == 0)
        {
            return null;
        }

        double text = sizes.Mark + 2 * sizes.Pad;
        double box = Math.Min((width - text) / card.Visits.Count, 8 * sizes.Total.Size);
        Type percent = sizes.Setting;
        bool fits = card.Visits.Where(v => v.Percent > 0).All(v => measure.Width(say.Percent(v.Percent), percent) <= box - 2);
        double offSize = percent.Size * Math.Min(1, (box - 4) / measure.Width(say["off"], percent));
        double height = sizes.Note.Line + percent.Line + 4;
        return new Band(height + sizes.Gap, (sheet, y, _) =>
        {
            for (int i = 0; i < card.Visits.Count; i++)
            {
                Visit visit = card.Visits[i];
                double x = left + text + i * box;
                sheet.Box(x, y, box + 0.7, height, i == say.VisitNow ? ThickRule : 0.7);
                sheet.Text(say.DayAndMonth(visit.Date), sizes.Note, x, y + 2, box, sizes.Note.Line, Side.Middle);
                sheet.Text(say.Percent(visit.Percent), visit.Percent > 0 ? percent : percent with { Size = offSize }, x,
                    y + 2 + sizes.Note.Line, box, percent.Line, Side.Middle);
            }
        }, Fits: fits);
    }

    /// <summary>What visits set beside the percent, a paragraph each.</summary>
    public Band? Changes()
    {
        if (card.Changes.Count == 0)
        {
            return null;
        }

        double text = sizes.Mark + 2 * sizes.Pad;
        List<string> lines =
            [.. card.Changes.SelectMany(c => measure.Lines($"{say["changes"]}, {say.Change(c)}", sizes.Step, width - text))];
        return new Band(lines.Count * sizes.Step.Line + sizes.Gap, (sheet, y, _) => Column(sheet, lines, sizes.Step, left + text, y));
    }

    /// <summary>What to know before the work begins; null where it has no room here.</summary>
    public Band? Before()
    {
        if (isFull)
        {
            return null;
        }

        string title = say["cautions"] + ": ";
        Type bold = sizes.Note with { Bold = true };
        double first = measure.Width(title, bold) + sizes.Pad;
        List<string> lines = Joined(say.CautionsBefore(), width - first);
        return new Band((lines.Count * sizes.Note.Line) + sizes.Gap, (sheet, y, _) =>
        {
            sheet.Text(title, bold, left, y, width, sizes.Note.Line);
            Column(sheet, lines, sizes.Note, left + first, y);
        });
    }

    /// <summary>Cautions below the step or the visits that they belong to; null where there are none.</summary>
    public Band? Aside(IEnumerable<string> cautions)
    {
        double text = sizes.Mark + 2 * sizes.Pad;
        List<string> lines = isFull ? [] : Joined(cautions, width - text);
        return lines.Count == 0 ? null
            : new Band((lines.Count * sizes.Note.Line) + sizes.Gap, (sheet, y, _) => Column(sheet, lines, sizes.Note, left + text, y));
    }

    /// <summary>A paragraph each, or all in one where space is short.</summary>
    private List<string> Joined(IEnumerable<string> paragraphs, double room) => sizes.Dense
        ? [.. new[] { string.Join(" ", paragraphs) }.Where(t => t.Length > 0).SelectMany(t => measure.Lines(t, sizes.Note, room))]
        : [.. paragraphs.SelectMany(p => measure.Lines(p, sizes.Note, room))];

    /// <summary>The last step with its check text, boxes for initials, and the code beside them.</summary>
    public Band Foot(int step)
    {
        double side = Math.Max(code.WithQuiet * QrPicture.SmallestModule, Math.Clamp(110 * sizes.Label.Size / 12.5, 92, 130));
        double room = width - side - 2 * sizes.Pad;
        IEnumerable<string> all = isFull
            ? [$"{say["cautions"]}:", .. say.CautionsBefore(), .. say.CautionsAtClock(), .. say.CautionsAtVisits()] : [];
        List<string> notes = Joined(HasReplaced ? all.Append(say.Fill("replaced", ("sign", FontCoverage.Replacement))) : all, room);
        Type large = new(sizes.Setting.Size * 1.25, true);
        double checkLeft = sizes.Mark + 3 * sizes.Pad + measure.Width(say["check"], sizes.Step with { Bold = true });
        double checkBox = measure.Width(card.Check, large) + 4 * sizes.Pad;
        double helpLeft = checkLeft + checkBox + 2 * sizes.Pad;
        List<string> help = measure.Lines(say["check.help"], sizes.Note, room - helpLeft);
        double checkHeight = Math.Max(sizes.Mark + 6, help.Count * sizes.Note.Line);
        double boxes = sizes.Setting.Line + sizes.Note.Line;
        double textHeight = checkHeight + boxes + (notes.Count * sizes.Note.Line) + 2 * sizes.Gap;
        List<string> codeWords = measure.Lines(say[card.Work is null ? "qr" : "qr.work"], sizes.Note, side);
        double codeHeight = side + codeWords.Count * sizes.Note.Line;
        return new Band(Math.Max(textHeight, codeHeight) + sizes.Gap, (sheet, y, _) =>
        {
            sheet.Rule(left, y, width, ThickRule);
            double top = y + sizes.Gap;
            sheet.Disc(step, sizes.Step with { Bold = true }, left, top + (checkHeight - sizes.Mark) / 2, sizes.Mark);
            sheet.Text(say["check"], sizes.Step with { Bold = true }, left + sizes.Mark + 2 * sizes.Pad, top, room, checkHeight);
            sheet.Box(left + checkLeft, top, checkBox, checkHeight, 2);
            sheet.Text(card.Check, large, left + checkLeft, top, checkBox, checkHeight, Side.Middle);
            Column(sheet, help, sizes.Note, left + helpLeft, top + (checkHeight - help.Count * sizes.Note.Line) / 2);
            top += checkHeight + sizes.Gap;
            Initials(sheet, top, room, boxes);
            top += boxes + sizes.Gap;
            Column(sheet, notes, sizes.Note, left, top);
            Draw(sheet, left + width - side, y + sizes.Gap / 2, side);
            for (int i = 0; i < codeWords.Count; i++)
            {
                sheet.Text(codeWords[i], sizes.Note, left + width - side, y + sizes.Gap / 2 + side + i * sizes.Note.Line, side,
                    sizes.Note.Line, Side.Middle);
            }
        });
    }

    /// <summary>Draws the code with its border into a square.</summary>
    private void Draw(Sheet sheet, double x, double y, double square)
    {
        double module = square / code.WithQuiet;
        foreach ((int row, int column, int dark) in code.Bars())
        {
            sheet.Black(x + (QrPicture.Quiet + column) * module, y + (QrPicture.Quiet + row) * module, dark * module, module);
        }
    }

    private bool HasReplaced => new[] { card.Site, card.Controller }.Concat(card.Stations.Select(s => s.Zone ?? ""))
        .Any(n => CardFonts.Coverage.Printable(n).Contains(FontCoverage.Replacement));

    private void Column(Sheet sheet, IEnumerable<string> lines, Type type, double x, double y)
    {
        foreach (string line in lines)
        {
            sheet.Text(line, type, x, y, width, type.Line);
            y += type.Line;
        }
    }

    private void Initials(Sheet sheet, double y, double room, double height)
    {
        string[] titles = [say["keyedBy"], say["date"], say["readBackBy"], say["date"]];
        double[] shares = [0.29, 0.21, 0.29, 0.21];
        double x = left;
        for (int i = 0; i < titles.Length; i++)
        {
            double box = room * shares[i];
            sheet.Box(x, y, box + (i == titles.Length - 1 ? 0 : 0.7), height, 0.7);
            sheet.Text(measure.Cut(titles[i], sizes.Note, box - 4), sizes.Note, x + 3, y + 1, box - 4, sizes.Note.Line);
            x += box;
        }
    }
}
