using System.Globalization;
using System.Text.RegularExpressions;
using NodaTime;
using NodaTime.Text;
using UglyToad.PdfPig;
using PdfPage = UglyToad.PdfPig.Content.Page;
using UglyToad.PdfPig.Core;
using UglyToad.PdfPig.Graphics;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;
using Valvewright.Files.Texts;
using ZXing;
using ZXing.QrCode;

namespace Valvewright.Files.Tests.Cards;

/// <summary>A printed card read as a person reads it: by where the texts stand on the page, with words of its own for both
/// languages.</summary>
internal sealed partial class CardPage
{
    private static readonly Dictionary<Language, string[]> WeekDays = new()
    {
        [Language.English] = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"],
        [Language.Spanish] = ["lun", "mar", "mié", "jue", "vie", "sáb", "dom"],
    };

    private readonly PdfPage page;
    private readonly bool spanish;
    private readonly Language language;
    private readonly ClockStyle clock;
    private readonly List<(string Text, double X, double Y, double Size)> words;

    public CardPage(PdfPage page, Language language, ClockStyle clock)
    {
        (this.page, this.language, this.clock) = (page, language, clock);
        spanish = language == Language.Spanish;
        words = [.. page.GetWords()
            .Select(w => (w.Text, w.Letters[0].StartBaseLine.X, w.Letters[0].StartBaseLine.Y, w.Letters[0].PointSize))];
    }

    public string AllText => string.Join(' ', words.OrderByDescending(w => Math.Round(w.Y)).ThenBy(w => w.X).Select(w => w.Text));

    public double SmallestType => page.Letters.Where(l => !string.IsNullOrWhiteSpace(l.Value)).Min(l => l.PointSize);

    public IEnumerable<string> Fonts => page.Letters.Select(l => l.FontName!).Distinct();

    /// <summary>The programs as the table gives them, with the smallest type that any of their settings is in.</summary>
    public (List<Program> Programs, double SmallestSetting) ReadPrograms(LocalDate from)
    {
        List<(char Letter, double Left, double Y)> heads = Heads();
        List<Program> programs = [];
        double smallest = double.MaxValue;
        for (int i = 0; i < heads.Count; i++)
        {
            double right = i + 1 < heads.Count ? heads[i + 1].Left : page.Width;
            List<LocalTime> starts = [];
            List<RunTime> runs = [];
            List<(string Text, double Y)> rows = Rows(heads[0]);
            double firstStart = rows.First(r => r.Text.StartsWith(spanish ? "Inicio " : "Start ", StringComparison.Ordinal)).Y;
            double runHead = rows.First(r => r.Text.StartsWith(spanish ? "Tiempos de riego" : "Run times", StringComparison.Ordinal)).Y;
            double totals = rows.First(r => r.Text.StartsWith(spanish ? "Totales" : "Totals", StringComparison.Ordinal)).Y;
            foreach ((string row, double y) in rows)
            {
                (string cell, double size) = Cell(y, heads[i].Left, right);
                if (y <= firstStart + 1 && y > runHead + 1 && char.IsDigit(cell[0]))
                {
                    starts.Add(Time(cell));
                    smallest = Math.Min(smallest, size);
                }
                else if (y < runHead - 1 && y > totals + 1 && cell != "0")
                {
                    runs.Add(new RunTime(int.Parse(row.Split(' ')[0], CultureInfo.InvariantCulture), Seconds(cell)));
                    smallest = Math.Min(smallest, size);
                }
            }

            string days = string
                .Join(' ', words.Where(w => w.X >= heads[i].Left && w.X < right && w.Y < heads[i].Y - 4 && w.Y > firstStart + 4)
                .OrderByDescending(w => Math.Round(w.Y)).ThenBy(w => w.X).Select(w => w.Text));
            programs.Add(new Program(heads[i].Letter, [.. starts], [.. runs], Days(days, from)));
        }

        return (programs, smallest);
    }

    /// <summary>
    /// The code on the page, from the small black rectangles that it is drawn with, found and read as in a picture from a camera.
    /// </summary>
    public string? ReadCode()
    {
        PdfRectangle[] marks =
        [
            .. page.Paths.Where(p => p.IsFilled && !p.IsStroked).Select(p => p.GetBoundingRectangle()!.Value)
                .Where(r => r.Left > page.Width * 0.6 && r.Top < page.Height * 0.35 && r.Height is > 0.5 and < 6 && r.Width < 60
                    && r.Width > 0.9),
        ];
        const int pixelsPerPoint = 6;
        double left = marks.Min(r => r.Left) - 8, top = marks.Max(r => r.Top) + 8;
        int width = (int)((marks.Max(r => r.Right) + 8 - left) * pixelsPerPoint),
            height = (int)((top - marks.Min(r => r.Bottom) + 8) * pixelsPerPoint);
        byte[] grey = new byte[width * height];
        Array.Fill(grey, (byte)255);
        foreach (PdfRectangle r in marks)
        {
            int from = (int)Math.Round((r.Left - left) * pixelsPerPoint), to = (int)Math.Round((r.Right - left) * pixelsPerPoint);
            for (int y = (int)Math.Round((top - r.Top) * pixelsPerPoint); y < (int)Math.Round((top - r.Bottom) * pixelsPerPoint); y++)
            {
                Array.Fill(grey, (byte)0, y * width + from, to - from);
            }
        }

        RGBLuminanceSource source = new(grey, width, height, RGBLuminanceSource.BitmapFormat.Gray8);
        BinaryBitmap image = new(new ZXing.Common.GlobalHistogramBinarizer(source));
        return new QRCodeReader().decode(image, new Dictionary<DecodeHintType, object> { [DecodeHintType.TRY_HARDER] = true })?.Text;
    }

    private List<(char Letter, double Left, double Y)> Heads()
    {
        string word = spanish ? "Programa" : "Program";
        double level = words.Where(w => w.Text == word).Select(w => w.Y).DefaultIfEmpty().Max();
        return
        [
            .. words.Where(w => w.Text == word && Math.Abs(w.Y - level) < 1)
                .Select(w => (Word: w, Letter: words.FirstOrDefault(l => l.Text.Length == 1 && char.IsAsciiLetterUpper(l.Text[0])
                    && Math.Abs(l.Y - w.Y) < 1 && l.X > w.X && l.X < w.X + 8 * w.Size)))
                .Where(h => h.Letter.Text is not null)
                .Select(h => (h.Letter.Text[0], h.Word.X - 2.6 * h.Word.Size, h.Word.Y))
                .OrderBy(h => h.Item2),
        ];
    }

    /// <summary>The names of rows: texts left of the first column, level to within 5 points (type of unlike sizes has unlike
    /// baselines).</summary>
    private List<(string Text, double Y)> Rows((char Letter, double Left, double Y) first)
    {
        List<List<(string Text, double X, double Y, double Size)>> rows = [];
        foreach (var word in words.Where(w => w.X < first.Left && w.Y < first.Y).OrderByDescending(w => w.Y))
        {
            if (rows.Count == 0 || rows[^1][0].Y - word.Y > 5)
            {
                rows.Add([]);
            }

            rows[^1].Add(word);
        }

        return [.. rows.Select(r => (string.Join(' ', r.OrderBy(w => w.X).Select(w => w.Text)), r.Average(w => w.Y)))];
    }

    private (string Text, double Size) Cell(double y, double left, double right)
    {
        var found = words.Where(w => w.X >= left && w.X < right && Math.Abs(w.Y - y) < 5).OrderBy(w => w.X).ToList();
        return found.Count == 0 ? ("?", 0) : (string.Join(' ', found.Select(w => w.Text)), found[0].Size);
    }

    private LocalTime Time(string cell) => LocalTimePattern.CreateWithInvariantCulture(clock == ClockStyle.Hours24 ? "HH:mm" : "h:mm tt")
        .Parse(cell.ToUpperInvariant()).GetValueOrThrow();

    private static int Seconds(string cell)
    {
        Match m = RunTimeForm().Match(cell);
        Assert.True(m.Success, $"'{cell}' is no run time.");
        int Part(string name) => m.Groups[name].Success ? int.Parse(m.Groups[name].Value, CultureInfo.InvariantCulture) : 0;
        return Part("h") * 3600 + Part("min") * 60 + Part("s");
    }

    private DayRule? Days(string cell, LocalDate from)
    {
        string plain = cell.Split(spanish ? " si se programa" : " if set")[0];
        switch (plain)
        {
            case "Odd dates" or "Fechas impares": return new OddDays();
            case "Even dates" or "Fechas pares": return new EvenDays();
            case "No day" or "Ningún día": return null;
            case "Every day" or "Todos los días": return new DaysOfWeek([.. Enumerable.Range(1, 7).Select(d => (IsoDayOfWeek)d)]);
        }

        Match m = IntervalForm().Match(plain);
        if (m.Success)
        {
            int n = m.Groups["n"].Success ? int.Parse(m.Groups["n"].Value, CultureInfo.InvariantCulture) : 1;
            return new EveryNDays(n, from.PlusDays(int.Parse(m.Groups["until"].Value, CultureInfo.InvariantCulture)));
        }

        return new DaysOfWeek([.. plain.Split(' ').Select(d => (IsoDayOfWeek)(Array.IndexOf(WeekDays[language], d) + 1))]);
    }

    [GeneratedRegex(@"^((?<h>\d+) h )?(?<min>\d+) min( (?<s>\d+) s)?$")]
    private static partial Regex RunTimeForm();

    [GeneratedRegex(
        @"^(Every (?<n>\d+) days|Every day \(interval 1\)|Cada (?<n>\d+) días|(Todos los días|Cada día) \(intervalo 1\)) (Days remaining|Días que faltan): (?<until>\d+)")]
    private static partial Regex IntervalForm();
}
