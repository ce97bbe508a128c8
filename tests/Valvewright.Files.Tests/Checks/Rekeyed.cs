using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Values;
using Valvewright.Tests.Slips;

namespace Valvewright.Files.Tests.Checks;

/// <summary>A display after somebody has keyed changes in.</summary>
internal static class Rekeyed
{
    public static Reading After(SlipCase one, IEnumerable<KeyChange> changes)
    {
        Reading reading = one.Reading;
        foreach (KeyChange change in changes)
        {
            reading = change switch
            {
                StartChange c => With(reading, c.Program, p => p with
                {
                    StartTimes = (p.StartTimes ?? []).Where(s => s != c.From).Concat(c.To is { } to ? [to] : Array.Empty<LocalTime>())
                        .Order().ToListOf(),
                }),
                RunChange c => With(reading, c.Program, p => p with
                {
                    RunTimes = (p.RunTimes ?? []).Where(r => r.Station != c.Station).Append(new RunTime(c.Station, c.Seconds))
                        .OrderBy(r => r.Station).ToListOf(),
                }),
                DaysChange c => With(reading, c.Program, p =>
                    p with { Days = Display.DaysOf(c.Days, Display.ClockOf(one.Site, one.Controller.Profile, one.At).Date) }),
                PercentChange c => reading with { Percent = c.Percent },
                SwitchChange c => reading with { Off = !c.On },
                HoldChange c => reading with { RainHoldDays = c.Days },
                ClockKeyed c => reading with { Clock = new ClockShown(c.Shows.TimeOfDay, c.Shows.DayOfWeek, c.Shows.Date) },
                _ => throw new NotSupportedException(change.ToString()),
            };
        }

        return reading;
    }

    private static Reading With(Reading reading, char letter, Func<ReadProgram, ReadProgram> change) => reading with
    {
        Programs = reading.Programs.Where(p => p.Letter != letter)
            .Append(change(reading.Programs.FirstOrDefault(p => p.Letter == letter) ?? new ReadProgram(letter)))
                .OrderBy(p => p.Letter).ToListOf(),
    };
}
