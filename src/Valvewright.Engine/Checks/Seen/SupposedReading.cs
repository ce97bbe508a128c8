using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks.Seen;

/// <summary>What a display would show if the slips had been made, in the parts that they touch; the check then explains it.</summary>
internal static class SupposedReading
{
    public static Reading Of(Inspection on, IEnumerable<PossibleSlip> slips)
    {
        PossibleSlip[] made = [.. slips];
        AsFound held = made.Aggregate(on.Found, (h, s) => s.Make(h));

        // Without a plan the rest of what was read is all there is to judge the slips by.
        Reading reading = on.Planned is null ? on.Reading with { ReadAt = on.At } : new Reading { ReadAt = on.At };
        LocalDate today = (held.ClockShows ?? on.RightClock).Date;
        foreach (PossibleSlip slip in made)
        {
            reading = slip.About switch
            {
                ReadPart.OnOrOff => reading with { Off = held.Off },
                ReadPart.RainHold => reading with { RainHoldDays = Math.Max(1, on.Profile.LargestRainHoldDays - slip.HoldSinceDays) },
                ReadPart.Percent => reading with { Percent = held.Settings.PercentAdjust },
                ReadPart.Clock when held.ClockShows is { } shows =>
                    reading with { Clock = new ClockShown(shows.TimeOfDay, shows.DayOfWeek, shows.Date) },
                _ => reading with { Programs = WithChanged(on, held, reading.Programs, today) },
            };
        }

        return reading;
    }

    private static ListOf<ReadProgram> WithChanged(Inspection on, AsFound held, ListOf<ReadProgram> before, LocalDate today)
    {
        List<ReadProgram> programs = [.. before];
        foreach (Program program in held.Settings.Programs)
        {
            Program planned = on.Found.ProgramOf(program.Letter);
            if (program == planned)
            {
                continue;
            }

            programs.RemoveAll(p => p.Letter == program.Letter);
            programs.Add(new ReadProgram(program.Letter)
            {
                StartTimes = program.StartTimes.Equals(planned.StartTimes) ? null : program.StartTimes,
                Days = program.Days == planned.Days ? null : Shown(program.Days, today),
                RunTimes = program.RunTimes.Equals(planned.RunTimes)
                    ? null
                    : program.RunTimes.Concat(planned.RunTimes.Select(r => r with { Seconds = 0 })).DistinctBy(r => r.Station)
                        .OrderBy(r => r.Station).ToListOf(),
            });
        }

        return programs.OrderBy(p => p.Letter).ToListOf();
    }

    private static ReadDays Shown(DayRule? rule, LocalDate today) => rule switch
    {
        DaysOfWeek week => new ReadDays(DayRuleKind.DaysOfWeek, week.Days),
        OddDays => new ReadDays(DayRuleKind.Odd, []),
        EvenDays => new ReadDays(DayRuleKind.Even, []),
        EveryNDays every => new ReadDays(DayRuleKind.Interval, [], every.Days, Expectation.DaysLeft(every, today)),
        _ => ReadDays.None,
    };
}
