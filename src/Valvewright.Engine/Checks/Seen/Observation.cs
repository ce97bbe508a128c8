using System.Text.Json.Serialization;
using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks.Seen;

/// <summary>Something that the owner saw, or missed.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "seen")]
[JsonDerivedType(typeof(RanAt), "ranAt")]
[JsonDerivedType(typeof(TimesADay), "timesADay")]
[JsonDerivedType(typeof(NothingFor), "nothingFor")]
[JsonDerivedType(typeof(RanOnDates), "ranOnDates")]
[JsonDerivedType(typeof(RanOn), "ranOn")]
[JsonDerivedType(typeof(RanDaily), "ranDaily")]
[JsonDerivedType(typeof(RunsFor), "runsFor")]
[JsonDerivedType(typeof(OnlyStations), "onlyStations")]
[JsonDerivedType(typeof(RanOnlyOn), "ranOnlyOn")]
public abstract record Observation
{
    private protected Observation()
    {
    }

    /// <summary>How many days back it must be known what was done.</summary>
    internal virtual int DaysBack => 70;

    /// <summary>How well what was done fits: 0 not at all, 1 exactly.</summary>
    internal abstract double Fit(Past past);
}

/// <summary>It ran, or did not run, at a time of day.</summary>
/// <param name="Time">Site time.</param>
/// <param name="Weekday">On the last such day; null: on some day of the last fortnight.</param>
/// <param name="Station">The station; 0: any.</param>
/// <param name="Ran">Whether it ran.</param>
public sealed record RanAt(LocalTime Time, IsoDayOfWeek? Weekday = null, int Station = 0, bool Ran = true) : Observation
{
    private const int Minutes = 10;

    /// <summary>A person who sees water may have come late: a station that has been open for a while fits less than one that
    /// opens.</summary>
    private const double FitWhenOpenAlready = 0.5;

    /// <summary>How many days ago, where that was said: 0 today, 1 yesterday.</summary>
    public int? DaysAgo { get; init; }

    internal override double Fit(Past past)
    {
        double best = 0;
        foreach (LocalDate date in DaysAgo is { } ago ? [past.At.Date.PlusDays(-ago)] : Weekday is { } day ? past.Last(day, 1, Time)
            : past.LastDays(14))
        {
            LocalDateTime time = date + Time;
            foreach (Ran run in past.Of(Station).Where(r => r.Opens <= time.PlusMinutes(Minutes) && r.Closes >= time.PlusMinutes(-Minutes)))
            {
                bool opens = run.Opens >= time.PlusMinutes(-Minutes) && run.BeginsProgram;
                best = Math.Max(best, opens ? 1 : FitWhenOpenAlready);
            }
        }

        return Ran ? best : best == 0 ? 1 : 0;
    }
}

/// <summary>So many times a day, or a night.</summary>
/// <param name="Times">How often, 1 or more.</param>
/// <param name="Night">From noon to noon; else from midnight to midnight.</param>
/// <param name="Station">The station; 0: whatever ran.</param>
public sealed record TimesADay(int Times, bool Night, int Station = 0) : Observation
{
    private const double FitOfOneProgram = 0.6;

    internal override double Fit(Past past)
    {
        var often = past.Of(Station).GroupBy(r => r.Program)
            .Select(p => p.GroupBy(r => r.Station)
                .Select(s => s.GroupBy(r => Night ? r.Opens.PlusHours(-12).Date : r.Opens.Date).Max(d => d.Count())).ToArray())
            .Select(counts => counts.All(c => c == Times)).ToArray();
        return often.Length == 0 || !often.Any(o => o) ? 0 : often.All(o => o) ? 1 : FitOfOneProgram;
    }
}

/// <summary>Nothing for some days.</summary>
/// <param name="Days">How many days up to now; null: never, as long as anybody knows.</param>
/// <param name="Station">The station; 0: nothing at all. A station that never comes on is missed because others do.</param>
public sealed record NothingFor(int? Days, int Station = 0) : Observation
{
    internal override double Fit(Past past)
    {
        LocalDateTime since = past.At.PlusDays(-(Days ?? 60));
        bool ran = past.Of(Station).Any(r => r.Closes > since && r.Opens < past.At);
        if (ran)
        {
            return 0;
        }

        if (Station == 0 || past.Wired.Count <= 1)
        {
            return 1;
        }

        // Anyone who names one station sees the others run; of several that stay dry it would be chance to name this one, and only this
        // one.
        int dry = past.Wired.Count(s => s == Station || !past.Of(s).Any(r => r.Opens > since));
        return dry >= past.Wired.Count ? 0 : 1.0 / (dry * dry);
    }
}

/// <summary>It ran on each of these dates of the month, one after the other.</summary>
/// <param name="Dates">Days of the month, as told: 31, 1.</param>
/// <param name="Station">The station; 0: any.</param>
public sealed record RanOnDates(ListOf<int> Dates, int Station = 0) : Observation
{
    private const int MostDaysApart = 31;

    /// <summary>It need not do so at every month's end, but nearly.</summary>
    private const double LeastShare = 0.9;

    /// <summary>Anyone who sees it every day says so.</summary>
    private const double FitWhenDaily = 0.3;

    internal override int DaysBack => 400;

    internal override double Fit(Past past)
    {
        HashSet<LocalDate> wet = [.. past.Of(Station).Select(r => r.Opens.Date)];
        LocalDate first = past.At.Date.PlusDays(-DaysBack + 2);
        int told = 0, followed = 0;
        for (LocalDate date = first; date < past.At.Date; date = date.PlusDays(1))
        {
            if (date.Day == Dates[0] && LastFrom(date) is { } last && last < past.At.Date)
            {
                told++;
                followed += FollowedFrom(date, wet) ? 1 : 0;
            }
        }

        bool always = told > 0 && followed >= LeastShare * told;
        return !always ? 0 : past.LastDays(10).Skip(1).All(wet.Contains) ? FitWhenDaily : 1;
    }

    /// <summary>The last of the dates, beginning with one that is the first of them; null where they do not follow within days.</summary>
    private LocalDate? LastFrom(LocalDate date)
    {
        LocalDate next = date;
        foreach (int day in Dates)
        {
            int days = 0;
            for (; days < MostDaysApart && next.Day != day; days++)
            {
                next = next.PlusDays(1);
            }

            if (next.Day != day)
            {
                return null;
            }
        }

        return next;
    }

    private bool FollowedFrom(LocalDate date, HashSet<LocalDate> wet)
    {
        LocalDate next = date;
        foreach (int day in Dates)
        {
            for (int i = 0; i < MostDaysApart && next.Day != day; i++)
            {
                next = next.PlusDays(1);
            }

            if (next.Day != day || !wet.Contains(next))
            {
                return false;
            }
        }

        return true;
    }
}

/// <summary>It runs, or does not run, on a day of the week.</summary>
/// <param name="Weekday">The day.</param>
/// <param name="Ran">Whether it runs.</param>
/// <param name="Station">The station; 0: any.</param>
public sealed record RanOn(IsoDayOfWeek Weekday, bool Ran = true, int Station = 0) : Observation
{
    internal override double Fit(Past past)
    {
        // Today may not be over: it counts where it ran, and the same day last week too.
        LocalDate[] dates = [.. past.Last(Weekday, Ran ? 2 : 3, LocalTime.Midnight)];
        bool ran = past.Of(Station).Any(r => dates.Contains(r.Opens.Date));
        return ran == Ran && (Ran || past.Runs.Count > 0) ? 1 : 0;
    }
}

/// <summary>It runs every day, or every night.</summary>
/// <param name="Station">The station; 0: any.</param>
public sealed record RanDaily(int Station = 0) : Observation
{
    internal override double Fit(Past past)
    {
        HashSet<LocalDate> wet = [.. past.Of(Station).Select(r => r.Opens.Date)];
        return past.LastDays(10).Skip(1).All(wet.Contains) ? 1 : 0;
    }
}

/// <summary>A station runs for so long at a time.</summary>
/// <param name="Minutes">Minutes.</param>
/// <param name="Station">The station; 0: any.</param>
public sealed record RunsFor(int Minutes, int Station = 0) : Observation
{
    internal override double Fit(Past past) =>
        past.Of(Station).Any(r => Math.Abs((r.Closes - r.Opens).ToDuration().TotalMinutes - Minutes) <= Math.Max(1, 0.1 * Minutes)) ? 1 : 0;
}

/// <summary>These stations work, and no other.</summary>
/// <param name="Stations">Their numbers.</param>
public sealed record OnlyStations(ListOf<int> Stations) : Observation
{
    internal override double Fit(Past past)
    {
        HashSet<int> ran = [.. past.Runs.Where(r => r.Opens > past.At.PlusDays(-28)).Select(r => r.Station)];
        return ran.SetEquals(Stations) ? 1 : 0;
    }
}

/// <summary>It runs on these days of the week, and on no other.</summary>
/// <param name="Weekdays">The days.</param>
/// <param name="Station">The station; 0: any.</param>
public sealed record RanOnlyOn(ListOf<IsoDayOfWeek> Weekdays, int Station = 0) : Observation
{
    internal override double Fit(Past past)
    {
        HashSet<IsoDayOfWeek> ran = [.. past.Of(Station).Where(r => r.Opens > past.At.PlusDays(-28)).Select(r => r.Opens.Date.DayOfWeek)];
        return ran.SetEquals(Weekdays) ? 1 : 0;
    }
}
