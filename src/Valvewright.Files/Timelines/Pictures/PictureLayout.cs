using NodaTime.TimeZones;

namespace Valvewright.Files.Timelines.Pictures;

/// <summary>Where things stand in a picture of a timeline; units are 1/96 inch, as wide as A4 across.</summary>
internal sealed record PictureLayout(int Days, LocalDate First, IList<string> Controllers, IList<string> Supplies, double[] TopFlow)
{
    public const double Width = 1123;
    public const double Margin = 24;
    public const double Top = 84;
    public const double LaneHeight = 14;
    public const double FlowHeight = 22;
    private const double Left = 200;
    private const double Right = 66;
    private const double BetweenFlows = 5;
    private const double BetweenDays = 12;

    private double DayHeight => Controllers.Count * LaneHeight + Supplies.Count * (FlowHeight + BetweenFlows) + BetweenDays;

    public double KeyTop => Top + Days * DayHeight + 8;

    public double Height => KeyTop + 30;

    /// <exception cref="ArgumentException">More days than a picture holds.</exception>
    public static PictureLayout Of(Site site, SiteWaterings waterings)
    {
        int days = Period.DaysBetween(waterings.From, waterings.To) + 1;
        if (days > TimelinePicture.MostDays)
        {
            throw new ArgumentException($"{days} days: a picture holds {TimelinePicture.MostDays}.", nameof(waterings));
        }

        string[] controllers = [.. site.Controllers.Select(c => c.Name).Where(n => waterings.Waterings.Any(w => w.Controller == n))];
        string[] supplies = [.. site.Supplies.Select(s => s.Name).Where(n => waterings.Waterings.Any(w => w.Supply == n))];
        double[] top = [.. supplies.Select(s =>
            1.08 * Math.Max(site.SupplyNamed(s).FlowLpm, SupplyFlow.Of(waterings, s).Select(f => f.FlowLpm).DefaultIfEmpty(0).Max()))];
        return new PictureLayout(days, waterings.From, controllers, supplies, top);
    }

    public static double X(double hours) => Left + (Width - Left - Right) * hours / 24;

    public double DayTop(int day) => Top + day * DayHeight;

    public double LaneTop(int day, int lane) => DayTop(day) + lane * LaneHeight;

    public double FlowBottom(int day, int supply) =>
        DayTop(day) + Controllers.Count * LaneHeight + supply * (FlowHeight + BetweenFlows) + FlowHeight + 2;

    /// <summary>
    /// The parts of a span on the days of the picture, in hours as local clocks show them; cut at midnights and at clock
    /// changes, so that a skipped hour stays empty and a doubled one is drawn over itself.
    /// </summary>
    public IEnumerable<(int Day, double From, double To)> Pieces(DateTimeZone zone, Instant opens, Instant closes)
    {
        for (Instant at = opens; at < closes;)
        {
            ZoneInterval part = zone.GetZoneInterval(at);
            LocalDateTime local = at.InZone(zone).LocalDateTime;
            Instant end = Instant.Min(closes, zone.AtStartOfDay(local.Date.PlusDays(1)).ToInstant());
            end = part.HasEnd ? Instant.Min(end, part.End) : end;
            int day = Period.DaysBetween(First, local.Date);
            if (day >= 0 && day < Days)
            {
                double from = local.TimeOfDay.NanosecondOfDay / (double)NodaConstants.NanosecondsPerHour;
                yield return (day, from, Math.Min(24, from + (end - at).TotalHours));
            }

            // A date that begins twice would not move on.
            at = end > at ? end : closes;
        }
    }
}
