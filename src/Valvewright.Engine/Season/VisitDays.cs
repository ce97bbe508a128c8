using System.Globalization;
using NodaTime;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Season;

/// <summary>
/// The days of a year on which a visit may be made, as a grid: the season is planned on these, and its bound holds for them.
/// </summary>
/// <remarks>Without wishes it is every seventh day. Days are offsets from the first day of a year of 365 days.</remarks>
public sealed class VisitDays
{
    private const int GridDays = 7;
    private const int CommonYear = 2001;

    private VisitDays(LocalDate yearBegins, int[] offsets, bool[] agreed, int shutdownIndex)
    {
        YearBegins = yearBegins;
        Offsets = offsets;
        Agreed = agreed;
        ShutdownIndex = shutdownIndex;
    }

    /// <summary>First day of the year of 365 days that the offsets count in: 1 January, or 1 July south of the equator.</summary>
    public LocalDate YearBegins { get; }

    /// <summary>Offsets of the possible days, rising.</summary>
    public int[] Offsets { get; }

    /// <summary>Which of them must be visits.</summary>
    public bool[] Agreed { get; }

    /// <summary>Index of the day of the winter shutdown; -1 where none is wished for.</summary>
    public int ShutdownIndex { get; }

    /// <summary>Whether a day strictly between two (by index, -1 and <see cref="Count"/> for the ends) must be a visit.</summary>
    public bool IsAgreedBetween(int before, int after) => Agreed.AsSpan(before + 1, after - before - 1).Contains(true);

    /// <summary>How many days are possible.</summary>
    public int Count => Offsets.Length;

    /// <summary>The date of a possible day.</summary>
    public AnnualDate DateOf(int index)
    {
        LocalDate date = YearBegins.PlusDays(Offsets[index]);
        return new AnnualDate(date.Month, date.Day);
    }

    /// <summary>The possible days under the options.</summary>
    /// <param name="options">Wishes.</param>
    /// <param name="south">Whether years begin on 1 July.</param>
    /// <exception cref="UnmetWishException">The wishes leave fewer days than visits, or contradict each other; the message says
    /// which.</exception>
    public static VisitDays Of(SeasonOptions options, bool south)
    {
        ArgumentNullException.ThrowIfNull(options);
        if (options.Visits is < 1 or > 12)
        {
            throw new UnmetWishException($"{options.Visits} visits a year; 1 to 12 can be planned.");
        }

        if (options.OnlyOn.Count > 0 && options.Year is null)
        {
            throw new UnmetWishException("Visits on certain days of the week need to know the year.");
        }

        LocalDate begins = new(south ? CommonYear - 1 : CommonYear, south ? 7 : 1, 1);
        int off = options.Shutdown is null ? -1 : OffsetOf(begins, options.Shutdown.Off),
            on = options.Shutdown is null ? -1 : OffsetOf(begins, options.Shutdown.On);
        HashSet<int> agreed = [.. options.Agreed.Select(d => OffsetOf(begins, d))];
        CheckShutdown(options, off, on, agreed, begins);
        agreed.UnionWith(off < 0 ? [] : [off, on]);
        if (agreed.Count > options.Visits)
        {
            Sentence winter = off < 0 ? "" : ", winter shutdown and spring start among them";
            throw new UnmetWishException(options.Visits == 1
                ? (Sentence)$"{agreed.Count} visits are agreed{winter}, but only 1 is to be made."
                : (Sentence)$"{agreed.Count} visits are agreed{winter}, but only {options.Visits} are to be made.");
        }

        int[] offsets = [.. Enumerable.Range(0, 365)
            .Where(o => agreed.Contains(o) || (IsPossible(options, begins, o) && !LiesWithin(o, off, on))).Order()];
        if (offsets.Length < options.Visits)
        {
            throw new UnmetWishException($"{options.Visits} visits are wanted, but the wishes leave only {offsets.Length} possible days.");
        }

        return new VisitDays(begins, offsets, [.. offsets.Select(agreed.Contains)], Array.IndexOf(offsets, off));
    }

    private static void CheckShutdown(SeasonOptions options, int off, int on, HashSet<int> agreed, LocalDate begins)
    {
        if (off < 0)
        {
            return;
        }

        int days = (on - off + 365) % 365;
        if (days < options.LeastDaysBetween || 365 - days < options.LeastDaysBetween)
        {
            throw new UnmetWishException(
                $"The winter shutdown lasts {days} days; {options.LeastDaysBetween} to {365 - options.LeastDaysBetween} can be planned.");
        }

        if (agreed.Where(a => LiesWithin(a, off, on)).Select(a => (int?)a).FirstOrDefault() is { } within)
        {
            throw new UnmetWishException(
                $"A visit is agreed for {begins.PlusDays(within).Day} {Month(begins.PlusDays(within))}, while the site is shut down for the winter.");
        }
    }

    private static Sentence Month(LocalDate date) => date.ToString("MMMM", CultureInfo.InvariantCulture);

    /// <summary>Whether a day lies between shutdown and spring start, neither included; the winter may pass the year's end.</summary>
    private static bool LiesWithin(int offset, int off, int on) =>
        off >= 0 && (off < on ? offset > off && offset < on : offset > off || offset < on);

    private static bool IsPossible(SeasonOptions options, LocalDate begins, int offset)
    {
        LocalDate date = begins.PlusDays(offset);
        AnnualDate annual = new(date.Month, date.Day);
        if (options.NotIn.Any(p => p.Contains(date)) || (options.OnlyFirstWeekOfMonth && date.Day > 7))
        {
            return false;
        }

        return options.OnlyOn.Count > 0
            ? options.OnlyOn.Contains(annual.InYear(YearOf(options.Year!.Value, begins, date)).DayOfWeek)
            : offset % GridDays == 0 || (options.OnlyFirstWeekOfMonth && date.Day == 1);
    }

    /// <summary>A southern year that begins in July ends in the next calendar year.</summary>
    private static int YearOf(int year, LocalDate begins, LocalDate date) => year + date.Year - begins.Year;

    private static int OffsetOf(LocalDate begins, AnnualDate date)
    {
        LocalDate inFirst = date.InYear(begins.Year);
        return Period.DaysBetween(begins, inFirst >= begins ? inFirst : date.InYear(begins.Year + 1));
    }
}
