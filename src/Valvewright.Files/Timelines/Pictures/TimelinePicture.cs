using System.Globalization;
using NodaTime.Text;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Supply;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Timelines.Pictures;

/// <summary>
/// A timeline as a picture: days down, hours across, one lane per controller, and beneath each day's lanes the flow that each
/// supply gives, with its limit. Programs differ by texture and stations carry their number, so that nothing depends on color.
/// </summary>
public static class TimelinePicture
{
    /// <summary>The most days of one picture.</summary>
    public const int MostDays = 62;

    /// <summary>As an SVG document.</summary>
    public static string Svg(Site site, SiteWaterings waterings, Language language = Language.English)
    {
        PictureLayout layout = PictureLayout.Of(site, waterings);
        SvgPen pen = new(PictureLayout.Width, layout.Height, Title(waterings, Wording.In(language)));
        Draw(pen, layout, site, waterings, Wording.In(language));
        return pen.ToString();
    }

    /// <summary>As a PNG file.</summary>
    public static byte[] Png(Site site, SiteWaterings waterings, Language language = Language.English)
    {
        PictureLayout layout = PictureLayout.Of(site, waterings);
        using PngPen pen = new(PictureLayout.Width, layout.Height);
        Draw(pen, layout, site, waterings, Wording.In(language));
        return pen.ToPng();
    }

    private static string Title(SiteWaterings waterings, Wording words) => words.Fill("picture.title", ("site", waterings.Site));

    private static void Draw(Pen pen, PictureLayout layout, Site site, SiteWaterings waterings, Wording words)
    {
        pen.Text(PictureLayout.Margin, 30, 18, bold: true, Side.Left, Cut(Title(waterings, words), 90), Pen.Ink);
        pen.Text(PictureLayout.Margin, 47, 10.5, bold: false, Side.Left, words.Fill("picture.span", ("from", Date(waterings.From,
            words)), ("to", Date(waterings.To, words)), ("zone", site.TimeZone)), Pen.Ink);
        Hours(pen, layout, site);
        for (int day = 0; day < layout.Days; day++)
        {
            Frame(pen, layout, day, waterings.From.PlusDays(day), site, words);
        }

        DateTimeZone zone = site.Zone();
        foreach (WaterSupply supply in site.Supplies.Where(s => layout.Supplies.Contains(s.Name)))
        {
            Flow(pen, layout, zone, waterings, supply, site.Units, words);
        }

        foreach (Watering watering in waterings.Waterings)
        {
            int lane = layout.Controllers.IndexOf(watering.Controller);
            foreach ((int day, double from, double to) in layout.Pieces(zone, watering.Opens, watering.Closes))
            {
                Run(pen, layout, watering, zone, site.Clock, day, lane, from, to, words);
            }
        }

        Key(pen, layout, waterings, words);
    }

    private static void Hours(Pen pen, PictureLayout layout, Site site)
    {
        for (int hour = 0; hour <= 24; hour++)
        {
            double x = PictureLayout.X(hour);
            pen.Line(x, PictureLayout.Top - 6, x, layout.KeyTop - 12, hour % 6 == 0 ? 0.9 : 0.4, Pen.Faint, dashed: false);
            if (hour % 2 == 0)
            {
                pen.Text(x, PictureLayout.Top - 10, 9.5, bold: false, Side.Middle, Hour(hour, site.Clock), Pen.Ink);
            }
        }
    }

    private static void Frame(Pen pen, PictureLayout layout, int day, LocalDate date, Site site, Wording words)
    {
        double top = layout.DayTop(day);
        pen.Line(PictureLayout.Margin, top - 3, PictureLayout.Width - PictureLayout.Margin, top - 3, 0.8, Pen.Faint, dashed: false);
        pen.Text(PictureLayout.Margin, top + 10, 10.5, bold: true, Side.Left, Date(date, words), Pen.Ink);
        for (int lane = 0; lane < layout.Controllers.Count; lane++)
        {
            double y = layout.LaneTop(day, lane);
            pen.Wipe(PictureLayout.X(0), y + PictureLayout.LaneHeight - 0.4, PictureLayout.X(24) - PictureLayout.X(0), 0.4, Pen.Faint);
            pen.Text(PictureLayout.X(0) - 6, y + 10, 9, bold: false, Side.Right, Cut(layout.Controllers[lane], 20), Pen.Ink);
        }

        for (int index = 0; index < layout.Supplies.Count; index++)
        {
            WaterSupply supply = site.SupplyNamed(layout.Supplies[index]);
            double bottom = layout.FlowBottom(day, index);
            double limit = bottom - PictureLayout.FlowHeight * supply.FlowLpm / layout.TopFlow[index];
            pen.Line(PictureLayout.X(0), bottom, PictureLayout.X(24), bottom, 0.5, Pen.Ink, dashed: false);
            pen.Line(PictureLayout.X(0), limit, PictureLayout.X(24), limit, 0.9, Pen.Ink, dashed: true);
            pen.Text(PictureLayout.X(0) - 6, bottom - 3, 8.5, bold: false, Side.Right, Cut(supply.Name, 22), Pen.Ink);
            pen.Text(PictureLayout.X(24) + 4, limit + 3, 8.5, bold: false, Side.Left, Amount(supply.FlowLpm, site.Units), Pen.Ink);
        }
    }

    private static void Flow(Pen pen, PictureLayout layout, DateTimeZone zone, SiteWaterings waterings, WaterSupply supply,
        UnitSystem units, Wording words)
    {
        int index = layout.Supplies.IndexOf(supply.Name);
        foreach (FlowStep step in SupplyFlow.Of(waterings, supply.Name))
        {
            bool over = step.FlowLpm > supply.FlowLpm;
            foreach ((int day, double from, double to) in layout.Pieces(zone, step.From, step.To))
            {
                double height = PictureLayout.FlowHeight * step.FlowLpm / layout.TopFlow[index];
                double x = PictureLayout.X(from);
                double width = PictureLayout.X(to) - x;
                double y = layout.FlowBottom(day, index) - height;
                if (over)
                {
                    pen.Area(x, y, width, height, Texture.Crossed, Pen.Alarm,
                        words.Fill("picture.over", ("flow", Amount(step.FlowLpm, units)), ("supply", supply.Name)));
                }
                else
                {
                    pen.Wipe(x, y, width, height, Pen.Wash);
                    pen.Line(x, y, x + width, y, 1, Pen.Ink, dashed: false);
                }
            }
        }
    }

    private static void Run(
        Pen pen, PictureLayout layout, Watering watering, DateTimeZone zone, ClockStyle clock, int day, int lane, double from,
            double to, Wording words)
    {
        double x = PictureLayout.X(from);
        double width = PictureLayout.X(to) - x;
        double y = layout.LaneTop(day, lane) + 1.5;
        Texture texture = TextureOf(watering.Program);
        string said = words.Fill(
            "picture.run", ("controller", watering.Controller), ("station", watering.Station), ("zone", watering.Zone),
                ("program", watering.Program),
            ("from", Time(watering.Opens, zone, clock)), ("to", Time(watering.Closes, zone, clock)));

        // A hair of paper between stations that follow each other.
        pen.Area(x, y, Math.Max(0.8, width - 1.6), PictureLayout.LaneHeight - 3, texture, Pen.Ink, said);
        string number = watering.Station.ToString(CultureInfo.InvariantCulture);
        double size = width >= 5.5 * number.Length + 2 ? 9 : 7;
        double needed = 0.6 * size * number.Length + 1;
        if (width < needed)
        {
            return;
        }

        if (texture is not (Texture.Solid or Texture.Open))
        {
            double cleared = Math.Min(needed + 1, width - 4);
            pen.Wipe(x + width / 2 - 0.8 - cleared / 2, y + 0.8, cleared, PictureLayout.LaneHeight - 4.6, "#ffffff");
        }

        pen.Text(x + width / 2 - 0.8, y + 5.6 + size * 0.36, size, bold: true, Side.Middle, number,
            texture == Texture.Solid ? "#ffffff" : Pen.Ink);
    }

    private static void Key(Pen pen, PictureLayout layout, SiteWaterings waterings, Wording words)
    {
        double x = PictureLayout.X(0);
        double y = layout.KeyTop;
        foreach (char program in waterings.Waterings.Select(w => w.Program).Distinct().Order())
        {
            pen.Area(x, y, 22, 11, TextureOf(program), Pen.Ink, words.Fill("picture.program", ("letter", program)));
            pen.Text(x + 27, y + 9, 9.5, bold: false, Side.Left, words.Fill("picture.program", ("letter", program)), Pen.Ink);
            x += 100;
        }

        pen.Line(x, y + 5.5, x + 22, y + 5.5, 0.9, Pen.Ink, dashed: true);
        pen.Text(x + 27, y + 9, 9.5, bold: false, Side.Left, words["picture.limit"], Pen.Ink);
        pen.Area(x + 185, y, 22, 11, Texture.Crossed, Pen.Alarm, words["picture.more"]);
        pen.Text(x + 212, y + 9, 9.5, bold: false, Side.Left, words["picture.more"], Pen.Ink);
        pen.Text(x + 340, y + 9, 9.5, bold: false, Side.Left, words["picture.numbers"], Pen.Ink);
    }

    private static Texture TextureOf(char program) => (program - 'A') switch
    {
        0 => Texture.Solid,
        1 => Texture.Slanted,
        2 => Texture.Dots,
        3 => Texture.Upright,
        4 => Texture.Open,
        5 => Texture.Level,
        _ => Texture.Crossed,
    };

    private static string Date(LocalDate date, Wording words) =>
        $"{words[$"day.{(int)date.DayOfWeek}"]} {date.Day} {words[$"month.{date.Month}"]} {date.Year}";

    private static string Time(Instant at, DateTimeZone zone, ClockStyle clock) =>
        LocalTimePattern.CreateWithInvariantCulture(clock == ClockStyle.Hours24 ? "HH:mm" : "h:mm tt").Format(at.InZone(zone).TimeOfDay)
            .ToLowerInvariant();

    private static string Hour(int hour, ClockStyle clock) => clock == ClockStyle.Hours24
        ? $"{hour:00}:00"
        : $"{(hour % 12 == 0 ? 12 : hour % 12)} {(hour % 24 < 12 ? "am" : "pm")}";

    private static string Amount(double lpm, UnitSystem units) => units == UnitSystem.Metric
        ? string.Create(CultureInfo.InvariantCulture, $"{lpm:0.#} L/min")
        : string.Create(CultureInfo.InvariantCulture, $"{lpm / UsUnits.LitresPerGallon:0.#} gpm");

    private static string Cut(string text, int most)
    {
        string line = string.Concat(text.Select(c => char.IsControl(c) ? ' ' : c));
        return line.Length <= most ? line : line[..(most - 1)] + "\u2026";
    }
}
