using NodaTime;

namespace Valvewright.Engine.Checks.Seen;

/// <summary>One run of a station in site time.</summary>
internal readonly record struct Ran(int Station, char Program, LocalDateTime Opens, LocalDateTime Closes, bool BeginsProgram);

/// <summary>What a controller has done up to now.</summary>
/// <param name="At">Now, by site time.</param>
/// <param name="Wired">The stations that water something.</param>
/// <param name="Runs">By rising time.</param>
internal sealed record Past(LocalDateTime At, IReadOnlyList<int> Wired, List<Ran> Runs)
{
    public IEnumerable<Ran> Of(int station) => station == 0 ? Runs : Runs.Where(r => r.Station == station);

    /// <summary>The last days of the week of a name, today among them if the time of day has been.</summary>
    public IEnumerable<LocalDate> Last(IsoDayOfWeek day, int count, LocalTime time)
    {
        LocalDate last = At.Date;
        while (last.DayOfWeek != day || last + time > At)
        {
            last = last.PlusDays(-1);
        }

        return Enumerable.Range(0, count).Select(i => last.PlusWeeks(-i));
    }

    /// <summary>Today and the days before it.</summary>
    public IEnumerable<LocalDate> LastDays(int count) => Enumerable.Range(0, count).Select(i => At.Date.PlusDays(-i));
}
