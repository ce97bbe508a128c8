using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Readings;

/// <summary>A reading that is shown back says the same.</summary>
public sealed class ReadingWriterTests
{
    [Theory]
    [InlineData(ClockStyle.Hours24, false)]
    [InlineData(ClockStyle.Hours24, true)]
    [InlineData(ClockStyle.Hours12, false)]
    [InlineData(ClockStyle.Hours12, true)]
    public void What_is_written_is_read_as_the_same_reading(ClockStyle clock, bool spanish)
    {
        Random random = new(7);
        for (int trial = 0; trial < 2_000; trial++)
        {
            Reading reading = Any(random);
            ReadText back = ReadingText.Parse(ReadingWriter.Write(reading, clock, spanish), null, clock);
            Assert.Equal(reading, back.Reading);
            Assert.Empty(back.Doubts);
        }
    }

    private static Reading Any(Random random)
    {
        bool Maybe() => random.Next(3) > 0;
        LocalDate date = new LocalDate(2026, 1, 1).PlusDays(random.Next(400));
        return new Reading
        {
            Controller = Maybe() ? "North gate" : null,
            ReadAt = Maybe() ? date + new LocalTime(random.Next(24), random.Next(60)) : null,
            Clock = Maybe() ? new ClockShown(
                new LocalTime(random.Next(24), random.Next(60)), Maybe() ? date.DayOfWeek : null, Maybe() ? date : null) : null,
            Percent = Maybe() ? random.Next(1, 20) * 10 : null,
            Off = Maybe() ? random.Next(2) == 0 : null,
            RainHoldDays = Maybe() ? random.Next(10) : null,
            Programs = Enumerable.Range(0, random.Next(5)).Select(p => AnyProgram(random, Profile.LetterOf(p))).ToListOf(),
        };
    }

    private static ReadProgram AnyProgram(Random random, char letter)
    {
        bool Maybe() => random.Next(3) > 0;
        return new ReadProgram(letter)
        {
            StartTimes = Maybe()
                ? Enumerable.Range(0, random.Next(5)).Select(_ => new LocalTime(random.Next(24), random.Next(60))).Distinct()
                    .Order().ToListOf()
                : null,
            RunTimes = Maybe()
                ? Enumerable.Range(1, random.Next(6))
                    .Select(s => new RunTime(s, random.Next(4) == 0 ? random.Next(7200) : random.Next(240) * 60)).ToListOf()
                : null,
            Days = Maybe() ? AnyDays(random) : null,
        };
    }

    private static ReadDays AnyDays(Random random) => random.Next(5) switch
    {
        0 => ReadDays.None,
        1 => new ReadDays(DayRuleKind.Odd, []),
        2 => new ReadDays(DayRuleKind.Even, []),
        3 => new ReadDays(DayRuleKind.DaysOfWeek, Enumerable.Range(1, 7).Where(_ => random.Next(2) == 0).DefaultIfEmpty(3)
            .Select(d => (IsoDayOfWeek)d).ToListOf()),
        _ => random.Next(2) == 0
            ? new ReadDays(DayRuleKind.Interval, [], random.Next(3, 15), random.Next(3))
            : new ReadDays(DayRuleKind.Interval, [], random.Next(2, 15), null, new LocalDate(2026, 7, 1).PlusDays(random.Next(90))),
    };
}
