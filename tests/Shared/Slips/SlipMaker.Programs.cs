using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Tests.Slips;

/// <summary>Slips in programs.</summary>
internal sealed partial class SlipMaker
{
    private static readonly int[] Pitches = [10, 15, 20, 30, 60];

    /// <summary>A start for every station: one after the other by run time, or every so many minutes.</summary>
    private bool ClassicIn(Program p)
    {
        int n = p.RunTimes.Count, step = Profile.StartStepMinutes;
        if (n <= p.StartTimes.Count || n > Profile.StartTimesPerProgram || p.StartTimes.Count > 1 || !Touch($"{p.Letter} starts"))
        {
            return false;
        }

        bool byRunTime = random.Next(2) == 0;
        int pitch = Pitches[random.Next(Pitches.Length)];
        List<LocalTime> starts = [p.StartTimes[0]];
        foreach (RunTime run in p.RunTimes.Take(n - 1))
        {
            int minutes = byRunTime ? (run.Seconds + 59) / 60 : pitch;
            starts.Add(starts[^1].PlusMinutes((minutes + step - 1) / step * step));
        }

        return starts.Distinct().Count() == n
            && Set(With(Read(p.Letter) with { StartTimes = starts.Order().ToListOf() }),
                new Label(FindingKind.StartsUsedAsStations, p.Letter));
    }

    private bool Emptied(Program p)
    {
        string part = new[] { "starts", "runs", "days" }[random.Next(3)];
        if (!Touch($"{p.Letter} {part}"))
        {
            return false;
        }

        ReadProgram read = Read(p.Letter);
        ReadProgram emptied = part switch
        {
            "starts" => read with { StartTimes = [] },
            "runs" => read with { RunTimes = random.Next(2) == 0 ? [] : read.RunTimes!.Select(r => r with { Seconds = 0 }).ToListOf() },
            _ => read with { Days = ReadDays.None },
        };
        return Set(With(emptied), new Label(FindingKind.EmptyPart, p.Letter));
    }

    private bool HalfDay(Program p)
    {
        LocalTime start = p.StartTimes[random.Next(p.StartTimes.Count)], turned = start.PlusHours(12);
        return !p.StartTimes.Contains(turned) && Touch($"{p.Letter} starts")
            && Set(With(Read(p.Letter) with { StartTimes = p.StartTimes.Select(s => s == start ? turned : s).Order().ToListOf() }),
                new Label(FindingKind.HalfDaySlip, p.Letter));
    }

    /// <summary>A start keyed in at another time that leads to one thing only; or one start too many.</summary>
    private bool StartMoved(FindingKind kind, Program p)
    {
        if (touched.Contains($"{p.Letter} starts") || walk.Of(Settings) is not (false, _, false))
        {
            return false;
        }

        bool overlapsAnyway = walk.Of(Settings).Overlaps;
        for (int tries = 0; tries < 12; tries++)
        {
            bool adds = p.StartTimes.Count < Profile.StartTimesPerProgram && p.StartTimes.Count + 1 != p.RunTimes.Count
                && random.Next(4) == 0;
            LocalTime start = p.StartTimes[random.Next(p.StartTimes.Count)];
            int slots = 1440 / Profile.StartStepMinutes;
            LocalTime moved = LocalTime.Midnight.PlusMinutes(random.Next(slots) * Profile.StartStepMinutes);
            long apart = Math.Abs(moved.NanosecondOfDay - start.NanosecondOfDay) / NodaConstants.NanosecondsPerMinute;
            if (p.StartTimes.Contains(moved) || p.StartTimes.Contains(moved.PlusHours(12)) || Math.Min(apart, 1440 - apart) < 10)
            {
                continue;
            }

            ListOf<LocalTime> starts = p.StartTimes.Where(s => adds || s != start).Append(moved).Order().ToListOf();
            (bool? outside, bool overlaps, bool? tooMuch) = walk.Of(
                Settings with { Programs = Settings.Programs
                    .Select(o => o.Letter == p.Letter ? o with { StartTimes = starts } : o).ToListOf() });
            FindingKind? leadsTo = (outside, overlaps, tooMuch) switch
            {
                (true, _, false) when !overlaps => FindingKind.OutsideHours,
                (false, true, false) when !overlapsAnyway => FindingKind.Overlap,
                (false, _, true) when !overlaps => FindingKind.SharedPipe,
                (false, false, false) => FindingKind.StartDiffers,
                _ => null,
            };
            if (leadsTo == kind && Touch($"{p.Letter} starts"))
            {
                return Set(With(Read(p.Letter) with { StartTimes = starts }), new Label(kind, p.Letter));
            }
        }

        return false;
    }

    private bool OutsideDays(Program p)
    {
        PermittedTimes permitted = site.SupplyNamed(controller.Supply).Permitted;
        ReadDays? days = permitted.Parity switch
        {
            DateParity.Even when Profile.DayRules.Contains(DayRuleKind.Odd) => new ReadDays(DayRuleKind.Odd, []),
            DateParity.Odd when Profile.DayRules.Contains(DayRuleKind.Even) => new ReadDays(DayRuleKind.Even, []),
            _ when permitted.Weekdays.Count is > 0 and < 7 && Profile.DayRules.Contains(DayRuleKind.DaysOfWeek) =>
                new ReadDays(DayRuleKind.DaysOfWeek, PermittedTimes.EveryWeekday),
            _ => null,
        };
        bool exempt = permitted.DripIsExempt && p.RunTimes.All(r => controller.Zones.First(z => z.Station == r.Station).Emission.Kind
            is Engine.Sprinklers.EmissionKind.Drip or Engine.Sprinklers.EmissionKind.Bubbler);
        return days is not null && !exempt && Touch($"{p.Letter} days")
            && Set(With(Read(p.Letter) with { Days = days }), new Label(FindingKind.OutsideDays, p.Letter));
    }

    private bool Odd(Program p) =>
        site.SupplyNamed(controller.Supply).Permitted is { Parity: DateParity.Any, Weekdays.Count: 7 }
        && Profile.DayRules.Contains(DayRuleKind.Odd) && !Profile.OddSkips31 && Touch($"{p.Letter} days")
        && Set(With(Read(p.Letter) with { Days = new ReadDays(DayRuleKind.Odd, []) }), new Label(FindingKind.OddOnThe31st, p.Letter));

    private bool WrongDay(Program p)
    {
        if (!Touch($"{p.Letter} days", "clock"))
        {
            return false;
        }

        ReadDays days = Read(p.Letter).Days!;
        int n = days.IntervalDays!.Value, wrong = (days.DaysLeft!.Value + random.Next(1, n)) % n;
        return Set(With(Read(p.Letter) with { Days = days with { DaysLeft = wrong } }), new Label(FindingKind.IntervalWrongDay, p.Letter));
    }

    private bool FewerDays(Program p)
    {
        ListOf<IsoDayOfWeek> days = ((DaysOfWeek)p.Days!).Days;
        IsoDayOfWeek gone = days[random.Next(days.Count)];
        return Touch($"{p.Letter} days")
            && Set(With(Read(p.Letter) with { Days = new ReadDays(DayRuleKind.DaysOfWeek, days.Where(d => d != gone).ToListOf()) }),
                new Label(FindingKind.DaysDiffer, p.Letter));
    }

    private bool TooLong(Program p)
    {
        RunTime run = p.RunTimes[random.Next(p.RunTimes.Count)];
        Zone zone = controller.Zones.First(z => z.Station == run.Station);

        // SWAT protocol (from memory), intake on slopes as docs/plants-and-soil.md has it.
        double slope = zone.SlopePercent <= 5 ? 1 : zone.SlopePercent <= 8 ? 0.8 : zone.SlopePercent <= 12 ? 0.6
            : zone.SlopePercent <= 20 ? 0.4 : 0.25;
        double beyond = zone.Emission.PrecipitationRateMmPerHour - zone.Soil.IntakeMmPerHour * slope;
        double seconds = beyond <= 0 ? double.PositiveInfinity : zone.Soil.SurfaceStorageMm / beyond * 3600 * (
            1.3 + 2 * random.NextDouble()) * 100 / Settings.PercentAdjust;
        if (seconds > Profile.RunTimeLimitSeconds || run.Seconds * Settings.PercentAdjust / 100.0 > zone.Soil.SurfaceStorageMm / beyond
            * 3600 || !Touch($"{p.Letter} runs"))
        {
            return false;
        }

        int keyed = (int)Math.Ceiling(seconds / Profile.RunTimeStepSeconds) * Profile.RunTimeStepSeconds;
        return keyed > run.Seconds && Set(With(Read(p.Letter) with { RunTimes = WithRun(Read(p.Letter).RunTimes!, run.Station, keyed) }),
            new Label(FindingKind.RunsOff, p.Letter, run.Station));
    }

    private bool Shorter(Program p)
    {
        RunTime run = p.RunTimes[random.Next(p.RunTimes.Count)];
        int keyed = run.Seconds / 2 / Profile.RunTimeStepSeconds * Profile.RunTimeStepSeconds;
        return keyed > 0 && Touch($"{p.Letter} runs")
            && Set(With(Read(p.Letter) with { RunTimes = WithRun(Read(p.Letter).RunTimes!, run.Station, keyed) }),
                new Label(FindingKind.RunTimeDiffers, p.Letter, run.Station));
    }

    private bool NoProgram(Program p)
    {
        RunTime run = p.RunTimes[random.Next(p.RunTimes.Count)];
        bool elsewhere = planned.Settings.Programs.Any(o => o.Letter != p.Letter && o.RunTimes.Any(r => r.Station == run.Station));
        return !elsewhere && Touch($"{p.Letter} runs")
            && Set(With(Read(p.Letter) with { RunTimes = WithRun(Read(p.Letter).RunTimes!, run.Station, 0) }),
                new Label(FindingKind.StationInNoProgram, p.Letter, run.Station));
    }

    /// <summary>A station is keyed into another program, and taken out of its own or not.</summary>
    private bool Elsewhere(Program p, bool alsoAtHome)
    {
        RunTime run = p.RunTimes[random.Next(p.RunTimes.Count)];
        Program[] others = [.. planned.Settings.Programs.Where(o => o.Letter != p.Letter && o.RunTimes.All(r => r.Station != run.Station))];
        if (others.Length == 0)
        {
            return false;
        }

        Program other = others[random.Next(others.Length)];
        if (!Touch($"{p.Letter} runs", $"{other.Letter} runs", $"{other.Letter} starts", $"{other.Letter} days"))
        {
            return false;
        }

        reading = With(Read(other.Letter) with { RunTimes = WithRun(Read(other.Letter).RunTimes!, run.Station, run.Seconds) });
        ReadProgram home = Read(p.Letter);
        return alsoAtHome
            ? Set(reading, new Label(FindingKind.StationInTwoPrograms, other.Letter, run.Station))
            : Set(With(home with { RunTimes = WithRun(home.RunTimes!, run.Station, 0) }),
                new Label(FindingKind.StationInWrongProgram, p.Letter, run.Station));
    }
}
