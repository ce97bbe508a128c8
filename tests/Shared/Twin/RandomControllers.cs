using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Tests.Twin;

/// <summary>Profiles, settings and states drawn at random from a seed, crowded so that rules meet each other often.</summary>
public sealed class RandomControllers(int seed)
{
    private readonly Random random = new(seed);

    /// <summary>A profile of any behaviour.</summary>
    public Profile Profile() => new()
    {
        Name = "drawn at random",
        Stations = random.Next(1, 13),
        Programs = random.Next(1, 5),
        StartTimesPerProgram = random.Next(1, 9),
        DayRules = [DayRuleKind.DaysOfWeek, DayRuleKind.Odd, DayRuleKind.Even, DayRuleKind.Interval],
        LargestIntervalDays = 31,
        Rounding = Pick(Enum.GetValues<PercentRounding>()),
        Overlap = Pick(Enum.GetValues<OverlapBehaviour>()),
        PauseBetweenStationsSeconds = Pick(0, 0, 1, 15, 60, 97, 600),
        OddSkips31 = Chance(2),
        OddSkips29February = Chance(2),
        ClockKnowsDaylightSaving = Chance(2),
        IntervalCountsDaysLeft = Chance(3),
        LargestRainHoldDays = 7,
        HasSensorInput = true,
        Pump = Chance(2) ? new PumpOutput(Pick(0, 0, 2, 10, 45, 180), Pick(0, 0, 1, 5, 30, 400)) : null,
    };

    /// <summary>Settings that the profile can hold; parts may be empty.</summary>
    public Settings Settings(Profile profile, LocalDate near)
    {
        int programs = random.Next(1, profile.Programs + 1);
        return new Settings(
            Enumerable.Range(0, programs).Select(index => Program(profile, index, near)).ToListOf(),
            Pick(100, 100, 10, 30, 50, 110, 125, 200, 3));
    }

    /// <summary>A date at which calendars do odd things, or any other.</summary>
    public LocalDate Date()
    {
        LocalDate start = Pick(
            new LocalDate(2024, 2, 27), new LocalDate(2023, 2, 27), new LocalDate(2025, 12, 29), new LocalDate(2026, 1, 29),
            new LocalDate(2026, 3, 28), new LocalDate(2026, 10, 30), new LocalDate(2000, 1, 1), new LocalDate(1999, 12, 30),
            new LocalDate(2026, 1, 1).PlusDays(random.Next(0, 3000)));
        return start.PlusDays(random.Next(0, 3));
    }

    /// <summary>What may befall it between two moments, in steady seconds.</summary>
    public ControllerState State(Profile profile, Settings settings, long from, long to)
    {
        List<Standstill> spells = [];
        for (int left = random.Next(0, 3); left > 0; left--)
        {
            long begins = Within(from, to);
            LostReason cause = Pick(LostReason.Off, LostReason.RainHold, LostReason.SensorWet, LostReason.NoPower);
            long ends = begins + Pick(random.Next(1, 100), random.Next(60, 7200), random.Next(3600, 200_000));
            spells.Add(new Standstill(cause, begins, ends, cause == LostReason.NoPower && Chance(2)));
        }

        return new ControllerState
        {
            KeyedIn = from,
            Standstills = spells.ToListOf(),
            HandRuns = Several(2, () => HandRun(profile, settings, Within(from, to))).OrderBy(r => r.At).ToListOf(),
            ClockChanges = Several(2, () => ClockChange(Within(from + 1, to))).DistinctBy(c => c.At).OrderBy(c => c.At).ToListOf(),
            SettingsChanges = Several(
                1, () => new SettingsChange(Within(from, to), Settings(profile, ClockSeconds.DateOf(from)))).ToListOf(),
            DaysLeft = Several(1, () => new DaysLeft('A', random.Next(0, 4))).ToListOf(),
        };
    }

    /// <summary>Between two seconds, mostly at a full minute.</summary>
    public long Within(long from, long to)
    {
        long second = random.NextInt64(from, to);
        return Chance(2) && second / 60 * 60 >= from ? second / 60 * 60 : second;
    }

    /// <summary>One of several.</summary>
    public T Pick<T>(params T[] values) => values[random.Next(values.Length)];

    /// <summary>True once in n times.</summary>
    public bool Chance(int n) => random.Next(n) == 0;

    /// <summary>A number from one up to, not including, another.</summary>
    public int Next(int from, int to) => random.Next(from, to);

    private Program Program(Profile profile, int index, LocalDate near)
    {
        // Hours that lie close together, around midnight or anywhere.
        int early = Pick(23 * 60, 0, 4 * 60, random.Next(0, 1440));
        int count = Chance(12) ? 0 : random.Next(1, Math.Min(profile.StartTimesPerProgram, 4) + 1);
        ListOf<LocalTime> starts = Enumerable.Range(0, count).Select(_ =>
            LocalTime.Midnight.PlusMinutes((early + Pick(0, 0, 1, 10, 30, 59, random.Next(0, 120))) % 1440)).ToListOf();
        List<RunTime> runs = [];
        for (int station = 1; station <= profile.Stations; station++)
        {
            if (Chance(2))
            {
                runs.Add(new RunTime(station, Pick(0, 30, 60, 90, 300, 600, 1200, 3600, 7200, random.Next(1, 900))));
            }
        }

        DayRule? days = random.Next(0, 12) switch
        {
            0 => null,
            1 => new OddDays(),
            2 => new EvenDays(),
            3 or 4 or 5 => new EveryNDays(random.Next(1, 6), near.PlusDays(random.Next(-40, 40))),
            _ => new DaysOfWeek(Enum.GetValues<IsoDayOfWeek>().Where(d => d != IsoDayOfWeek.None && !Chance(3)).ToListOf()),
        };
        return new Program(Engine.Controllers.Profile.LetterOf(index), starts, runs.ToListOf(), days);
    }

    private HandRun HandRun(Profile profile, Settings settings, long at) => Chance(2)
        ? new HandRun(at, random.Next(1, profile.Stations + 1), random.Next(1, 4000))
        : new HandRun(at, 0, 0, Pick([.. settings.Programs]).Letter);

    private ClockChange ClockChange(long at)
    {
        ClockChangeCause cause = Pick(Enum.GetValues<ClockChangeCause>());
        long jump = cause == ClockChangeCause.ByItself
            ? Pick(-3600, 3600)
            : Pick(-43_200, 43_200, -86_400, 86_400, 3600, -3600, 366 * 86_400L, random.Next(-100_000, 100_000));
        return new ClockChange(at, at + jump, cause);
    }

    private List<T> Several<T>(int most, Func<T> draw) => [.. Enumerable.Range(0, random.Next(0, most + 1)).Select(_ => draw())];
}
