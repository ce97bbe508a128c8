using NodaTime;
using Valvewright.Engine.Needs;

namespace Valvewright.Engine.Season;

/// <summary>
/// The days of a year on which a visit may be made, as a grid: the season is planned on these, and its bound holds for them.
/// </summary>
/// <remarks>Without wishes it is every seventh day. Days are offsets from the first day of a year of 365 days.</remarks>
public sealed class VisitDays
{
    private const int GridDays = 7;
    private const int CommonYear = 2001;

    private VisitDays(LocalDate yearBegins, int[] offsets, bool[] agreed)
    {
        YearBegins = yearBegins;
        Offsets = offsets;
        Agreed = agreed;
    }

    /// <summary>First day of the year of 365 days that the offsets count in: 1 January, or 1 July south of the equator.</summary>
    public LocalDate YearBegins { get; }

    /// <summary>Offsets of the possible days, rising.</summary>
    internal int[] Offsets { get; }

    /// <summary>Which of them must be visits.</summary>
    internal bool[] Agreed { get; }

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
    /// <exception cref="ArgumentException">The wishes leave fewer days than visits, or contradict each other; the message says which.</exception>
    public static VisitDays Of(SeasonOptions options, bool south)
    {
        ArgumentNullException.ThrowIfNull(options);
        if (options.Visits is < 1 or > 12)
        {
            throw new ArgumentException($"{options.Visits} visits a year; 1 to 12 can be planned.");
        }

        if (options.OnlyOn.Count > 0 && options.Year is null)
        {
            throw new ArgumentException("Visits on certain days of the week need to know the year.");
        }

        if (options.Agreed.Count > options.Visits)
        {
            throw new ArgumentException($"{options.Agreed.Count} visits are agreed, but only {options.Visits} are to be made.");
        }

        LocalDate begins = new(south ? CommonYear - 1 : CommonYear, south ? 7 : 1, 1);
        HashSet<int> agreed = [.. options.Agreed.Select(d => OffsetOf(begins, d))];
        int[] offsets = [.. Enumerable.Range(0, 365).Where(o => agreed.Contains(o) || IsPossible(options, begins, o)).Order()];
        if (offsets.Length < options.Visits)
        {
            throw new ArgumentException($"{options.Visits} visits are wanted, but the wishes leave only {offsets.Length} possible days.");
        }

        return new VisitDays(begins, offsets, [.. offsets.Select(agreed.Contains)]);
    }

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
