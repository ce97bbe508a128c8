using System.Text;
using NodaTime;
using NodaTime.Text;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Controllers;

/// <summary>Short words for controllers, programs and what they do, so that a test reads like its rule.</summary>
internal static class Words
{
    /// <summary>A Monday.</summary>
    public static LocalDate Monday { get; } = new(2026, 6, 1);

    public static Profile Plain { get; } = new()
    {
        Name = "4 stations, 3 programs",
        Stations = 4,
        Programs = 3,
        StartTimesPerProgram = 4,
        DayRules = [DayRuleKind.DaysOfWeek, DayRuleKind.Odd, DayRuleKind.Even, DayRuleKind.Interval],
        LargestIntervalDays = 30,
        LargestRainHoldDays = 7,
        HasSensorInput = true,
    };

    public static DayRule EveryDay { get; } = new EveryNDays(1, Monday);

    /// <summary>A program from "04:00,05:00" and "1=10m,2=90s".</summary>
    public static Program Program(char letter, string starts, string runs, DayRule? days) => new(
        letter,
        Split(starts).Select(t => LocalTimePattern.GeneralIso.Parse(t.Length == 5 ? t + ":00" : t).Value).ToListOf(),
        Split(runs).Select(ToRunTime).ToListOf(),
        days);

    public static Settings Settings(params Program[] programs) => new(programs.ToListOf());

    /// <summary>Seconds of a time on <see cref="Monday"/>, or so many days later.</summary>
    public static long At(string time, int days = 0) =>
        ClockSeconds.From(Monday.PlusDays(days) + LocalTimePattern.GeneralIso.Parse(time.Length == 5 ? time + ":00" : time).Value);

    /// <summary>"A1 04:00-04:10" and so on, with "+1" after a time for each day after the first.</summary>
    public static string Shown(IEnumerable<StationRun> runs, LocalDate first)
    {
        StringBuilder text = new();
        foreach (StationRun run in runs)
        {
            text.Append(text.Length > 0 ? ", " : "")
                .Append(run.Program).Append(run.Station).Append(' ')
                .Append(Time(run.Opens, first)).Append('-').Append(Time(run.Closes, first));
        }

        return text.ToString();
    }

    public static string Shown(IEnumerable<StationRun> runs) => Shown(runs, Monday);

    public static string Shown(IEnumerable<PumpRun> runs) =>
        string.Join(", ", runs.Select(r => $"{Time(r.On, Monday)}-{Time(r.Off, Monday)}"));

    public static string Shown(IEnumerable<LostStart> lost) =>
        string.Join(", ", lost.Select(s => $"{s.Program} {Time(s.DueAt, Monday)} {s.Reason}"));

    /// <summary>Days of June 2026, or of the dates given, on which anything ran.</summary>
    public static string Days(Timeline timeline) =>
        string.Join(' ', timeline.Runs.Select(r => r.OpensAt.Date).Distinct().Select(d => $"{d.Day}/{d.Month}"));

    private static string Time(long second, LocalDate first)
    {
        LocalDateTime at = ClockSeconds.ToDateTime(second);
        int days = Period.DaysBetween(first, at.Date);
        string time = LocalTimePattern.CreateWithInvariantCulture(at.Second == 0 ? "HH:mm" : "HH:mm:ss").Format(at.TimeOfDay);
        return days == 0 ? time : $"{time}{(days > 0 ? "+" : "")}{days}";
    }

    private static RunTime ToRunTime(string text)
    {
        string[] parts = text.Split('=');
        int amount = int.Parse(parts[1][..^1]);
        return new RunTime(int.Parse(parts[0]), amount * (parts[1][^1] == 'm' ? 60 : 1));
    }

    private static string[] Split(string text) => text.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
}
