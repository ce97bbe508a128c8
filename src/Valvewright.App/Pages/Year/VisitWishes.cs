using NodaTime;
using Valvewright.Engine.Season;
using Valvewright.Engine.Values;
using Valvewright.Records.Jobs;

namespace Valvewright.App.Pages.Year;

/// <summary>What a person wishes of the visits, as it stands in the form.</summary>
public sealed class VisitWishes
{
    /// <summary>The most visits a year that can be asked for.</summary>
    public const int Most = 12;

    private static readonly int[] LastDays = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

    /// <summary>Visits a year.</summary>
    public int Visits { get; set; } = 4;

    /// <summary>Days of the week on which visits can be made; none: any.</summary>
    public SortedSet<IsoDayOfWeek> OnlyOn { get; } = [];

    /// <summary>Months without visits, 1 to 12.</summary>
    public SortedSet<int> NotIn { get; } = [];

    /// <summary>Only on the first seven days of a month.</summary>
    public bool OnlyFirstWeekOfMonth { get; set; }

    /// <summary>Dates that are agreed already.</summary>
    public SortedSet<AnnualDate> Agreed { get; } = [];

    /// <summary>Whether it is shut down over the winter on fixed dates.</summary>
    public bool HasShutdown { get; set; }

    /// <summary>The visit that turns controllers off.</summary>
    public AnnualDate Off { get; set; } = new(11, 1);

    /// <summary>The visit that turns them on again.</summary>
    public AnnualDate On { get; set; } = new(3, 1);

    /// <summary>Whether programs are chosen again, together with the visits.</summary>
    public bool WithPrograms { get; set; }

    /// <summary>Why they cannot be met, as the name of a text; null where they can.</summary>
    public string? Problem =>
        NotIn.Count == 12 ? "year.wrong.months"
        : HasShutdown && Off == On ? "year.wrong.shutdown"
        : Agreed.Count + (HasShutdown ? 2 : 0) > Visits ? "year.wrong.agreed"
        : Agreed.Any(d => NotIn.Contains(d.Month)) ? "year.wrong.agreedMonth"
        : null;

    /// <summary>The work to ask for.</summary>
    /// <param name="plan">The plan whose programs stay.</param>
    /// <param name="from">The first date in force where programs are chosen again.</param>
    public JobRequest ToRequest(Guid plan, LocalDate from) => new(
        "season", WithPrograms ? null : plan, WithPrograms ? from : null, Visits,
        new SeasonWishes(
            OnlyOn.Count == 0 ? null : OnlyOn.ToListOf(),
            NotIn.Count == 0 ? null
                : NotIn.Select(m => new PeriodOfYear(new AnnualDate(m, 1), new AnnualDate(m, LastDays[m - 1]))).ToListOf(),
            OnlyFirstWeekOfMonth ? true : null,
            Agreed.Count == 0 ? null : Agreed.ToListOf(),
            Shutdown: HasShutdown ? new Shutdown(Off, On) : null));

    /// <summary>The work to ask for where programs and visits are planned from the survey alone.</summary>
    /// <param name="from">The first date in force.</param>
    public JobRequest ToPlanRequest(LocalDate from) =>
        new("plan", null, from, Visits, Visits > 0 && HasShutdown ? new SeasonWishes(Shutdown: new Shutdown(Off, On)) : null);

    /// <summary>A date of that month, the month's last day where it has no such day.</summary>
    public static AnnualDate DateOf(int month, int day) => new(month, Math.Clamp(day, 1, LastDays[month - 1]));
}
