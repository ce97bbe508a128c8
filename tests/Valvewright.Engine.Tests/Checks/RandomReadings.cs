using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Tests;

namespace Valvewright.Engine.Tests.Checks;

/// <summary>Whatever can be read or typed, a check has an answer and says it without a hole.</summary>
public class RandomReadings
{
    private static readonly string[] Words =
    [
        "A:", "B:", "C:", "starts", "5:00", "17:30", "5", "99:99", "24:00", "none", "days", "MWF", "odd", "even", "every", "3", "0", "-1",
            "days", "left", "2", "next",
        "2026-07-20", "stations", "1=10", "2=0", "9=600", "1-4=12", "st3=1h30", "percent", "80", "4000", "%", "off", "on", "hold", "300",
            "clock", "Tue", "3:12", "pm", "now",
        "2026-12-31", "1999-01-01", ";", "\n", "daily", "99999999999", "{0}", "é", "\u0000", "noon",
    ];

    [Fact]
    public void Two_thousand_never_crash()
    {
        Random random = new(7);
        for (int i = 0; i < Cases.Of(2_000); i++)
        {
            Profile profile = i % 3 == 0 ? CheckSite.Profile : GenericProfiles.All[random.Next(GenericProfiles.All.Count)];
            SiteController controller = CheckSite.North with { Profile = profile };
            Reading reading = i % 2 == 0
                ? ReadingText.Parse(string.Join(' ', Enumerable.Range(0, random.Next(1, 30)).Select(_ => Words[random.Next(Words.Length)])),
                    profile).Reading
                : Any(random);
            CheckResult result = Check.Of(
                CheckSite.Site, controller, random.Next(2) == 0 ? CheckSite.Plan : null, reading,
                    new CheckContext(CheckSite.At, (CheckLanguage)random.Next(2)));
            foreach (Finding finding in result.Findings)
            {
                Assert.NotEmpty(finding.Explanation);
                Assert.True(finding.Effect is not { } e || (double.IsFinite(e.AsItIs.Litres) && e.Mended.Minutes >= 0));
            }
        }
    }

    private static Reading Any(Random random) => new()
    {
        ReadAt = Maybe(random, () =>
            new LocalDateTime(random.Next(1990, 2200), random.Next(1, 13), random.Next(1, 29), random.Next(24), random.Next(60))),
        Clock = random.Next(2) == 0 ? null : new ClockShown(
            Maybe(random, () => Time(random)), Maybe(random, () => (IsoDayOfWeek)random.Next(1, 8)),
                Maybe(random, () => new LocalDate(random.Next(1990, 2200), 2, 28))),
        Percent = Maybe(random, () => random.Next(-50, 5000)),
        Off = Maybe(random, () => random.Next(2) == 0),
        RainHoldDays = Maybe(random, () => random.Next(-5, 10_000)),
        Programs = Enumerable.Range(0, random.Next(6)).Select(_ => Program(random)).ToListOf(),
    };

    private static ReadProgram Program(Random random) => new((char)('A' + random.Next(8)))
    {
        StartTimes = random.Next(3) == 0 ? null : Enumerable.Range(0, random.Next(9)).Select(_ => Time(random)).ToListOf(),
        RunTimes = random.Next(3) == 0 ? null : Enumerable.Range(0, random.Next(9))
            .Select(_ => new RunTime(random.Next(-1, 60), random.Next(-100, 200_000))).ToListOf(),
        Days = random.Next(3) == 0
            ? null
            : new ReadDays(
                Maybe(random, () => (DayRuleKind)random.Next(4)),
                    Enumerable.Range(0, random.Next(8)).Select(_ => (IsoDayOfWeek)random.Next(1, 8)).ToListOf(),
                Maybe(random, () => random.Next(-3, 400)), Maybe(random, () => random.Next(-3, 800)),
                    Maybe(random, () => new LocalDate(random.Next(1990, 2200), 1, 1))),
    };

    private static LocalTime Time(Random random) => LocalTime.Midnight.PlusMinutes(random.Next(1440));

    private static T? Maybe<T>(Random random, Func<T> make)
        where T : struct => random.Next(3) == 0 ? null : make();
}
