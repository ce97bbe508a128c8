using NodaTime;

namespace Valvewright.Engine.Controllers.Mechanism;

/// <summary>A program made ready to run: scaled run times, start times in order, a day rule that answers quickly.</summary>
internal sealed class KeyedProgram
{
    private readonly DayRule? rule;
    private readonly int weekdays;
    private readonly int anchor;
    private readonly int interval;

    private KeyedProgram(char letter, int index, int[] stations, int[] seconds, DayRule? rule)
    {
        Letter = letter;
        Index = index;
        Stations = stations;
        Seconds = seconds;
        this.rule = rule;
        if (rule is DaysOfWeek chosen)
        {
            foreach (IsoDayOfWeek day in chosen.Days)
            {
                weekdays |= 1 << ((int)day - 1);
            }
        }
        else if (rule is EveryNDays every)
        {
            ArgumentOutOfRangeException.ThrowIfLessThan(every.Days, 1);
            interval = every.Days;
            anchor = (int)(ClockSeconds.AtMidnight(every.Anchor) / ClockSeconds.PerDay);
        }
    }

    public char Letter { get; }

    /// <summary>Place among the programs; which lane it runs in where programs run beside each other.</summary>
    public int Index { get; }

    public int[] Stations { get; }

    public int[] Seconds { get; }

    /// <summary>The interval's days where the rule is one, else 0.</summary>
    public int Interval => interval;

    public DayRule? Rule => rule;

    public static KeyedProgram Of(Program program, int index, int percent, PercentRounding rounding)
    {
        int[] stations = new int[program.RunTimes.Count];
        int[] seconds = new int[stations.Length];
        int count = 0;
        foreach (RunTime run in program.RunTimes.AsSpan())
        {
            int scaled = Emulator.PercentOf(run.Seconds, percent, rounding);
            if (scaled > 0)
            {
                stations[count] = run.Station;
                seconds[count++] = scaled;
            }
        }

        Array.Resize(ref stations, count);
        Array.Resize(ref seconds, count);
        Array.Sort(stations, seconds);
        return new KeyedProgram(program.Letter, index, stations, seconds, program.Days);
    }

    /// <summary>One station opened by hand.</summary>
    public static KeyedProgram ByHand(int station, int seconds, int lane) =>
        new(StationRun.ByHand, lane, [station], [seconds], null);

    /// <summary>Days from a day to the next on which the interval waters, counted from its anchor.</summary>
    public int DaysLeftOn(int day) => Modulo(anchor - day, interval);

    /// <summary>Whether it waters on a day, counted from <see cref="ClockSeconds.Epoch"/>.</summary>
    public bool WatersOn(int day, Profile profile) => rule switch
    {
        null => false,
        DaysOfWeek => (weekdays >> Modulo(day + 5, 7) & 1) == 1,
        EveryNDays => (day - anchor) % interval == 0,
        _ => rule.WatersOn(ClockSeconds.Epoch.Date.PlusDays(day), profile),
    };

    private static int Modulo(int value, int by)
    {
        int rest = value % by;
        return rest < 0 ? rest + by : rest;
    }
}

/// <summary>All programs of a controller made ready, with the starts of a day in order.</summary>
internal sealed class KeyedSettings
{
    private KeyedSettings(KeyedProgram[] programs, DailyStart[] starts)
    {
        Programs = programs;
        Starts = starts;
    }

    public KeyedProgram[] Programs { get; }

    /// <summary>Starts of programs that have something to run, by rising time of day, then by letter.</summary>
    public DailyStart[] Starts { get; }

    public static KeyedSettings Of(Settings settings, PercentRounding rounding)
    {
        KeyedProgram[] programs = new KeyedProgram[settings.Programs.Count];
        List<DailyStart> starts = [];
        for (int index = 0; index < programs.Length; index++)
        {
            Program program = settings.Programs[index];
            programs[index] = KeyedProgram.Of(program, index, settings.PercentAdjust, rounding);
            if (program.Days is null || programs[index].Seconds.Length == 0)
            {
                continue;
            }

            int start = 0;
            foreach (LocalTime time in program.StartTimes.Distinct().Order())
            {
                starts.Add(new DailyStart((int)(time.NanosecondOfDay / NodaConstants.NanosecondsPerSecond), index, start++));
            }
        }

        starts.Sort();
        return new KeyedSettings(programs, [.. starts]);
    }
}

/// <summary>A start of a day.</summary>
internal readonly record struct DailyStart(int SecondOfDay, int Program, int Start) : IComparable<DailyStart>
{
    public int CompareTo(DailyStart other) =>
        SecondOfDay != other.SecondOfDay ? SecondOfDay.CompareTo(other.SecondOfDay)
        : Program != other.Program ? Program.CompareTo(other.Program)
        : Start.CompareTo(other.Start);
}
