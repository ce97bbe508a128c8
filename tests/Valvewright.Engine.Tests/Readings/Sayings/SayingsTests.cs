using System.Globalization;
using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Tests.Checks;
using Valvewright.Engine.Values;
using Xunit.Abstractions;

namespace Valvewright.Engine.Tests.Readings.Sayings;

/// <summary>What people say at a display, written by hand, half of it in Spanish: understood, or asked about, never quietly taken for
/// something else.</summary>
public sealed class SayingsTests(ITestOutputHelper output)
{
    [Theory]
    [InlineData("sayings.txt", 0.95)]
    [InlineData("held-back.txt", 0.90)]
    public void They_are_understood_or_asked_about(string file, double atLeast)
    {
        ListOf<Saying> sayings = Saying.In(file);
        var judged = sayings.Select(s => (Saying: s, Verdict: s.Judge())).ToArray();
        output.WriteLine($"{file}: {sayings.Count}; " + string
            .Join(", ", judged.CountBy(j => j.Verdict).OrderBy(v => v.Key).Select(v => $"{v.Key} {v.Value}")));
        foreach ((Saying saying, Verdict verdict) in judged.Where(j => j.Verdict > Verdict.ExactWithDoubts))
        {
            output.WriteLine($"{verdict}: {saying.Text}");
        }

        Assert.Empty(judged.Where(j => j.Verdict == Verdict.SilentlyWrong).Select(j => j.Saying.Text));
        Assert.True(judged.Count(j => j.Verdict <= Verdict.ExactWithDoubts) >= atLeast * sayings.Count);
    }

    /// <summary>The plan is what was meant: whatever a check is sure of is then a blame on a word that was misread.</summary>
    [Theory]
    [InlineData("sayings.txt")]
    [InlineData("held-back.txt")]
    public void No_finding_is_sure_on_a_misread(string file)
    {
        List<string> blamed = [];
        foreach (Saying saying in Saying.In(file))
        {
            ReadText read = saying.Read();
            SiteController controller = CheckSite.North with { Name = "Gate", Profile = saying.Profile };
            Site site = CheckSite.Site with { Controllers = [controller] };
            Plan plan = new(site.Name,
                [new ControllerPlan("Gate", new Settings(Programs(saying)) { PercentAdjust = Percent(saying) }, [])]);
            CheckResult result = Check
                .Of(site, controller, plan, read.Reading, new CheckContext(CheckSite.At) { Doubtful = read.DoubtfulParts });
            blamed.AddRange(result.Findings.Where(f => f.Certainty == Certainty.Sure && IsOnSettings(f))
                .Select(f => $"{saying.Text}: {f.Explanation}"));
            if (read.DoubtfulParts.Count > 0)
            {
                Assert.Contains(read.DoubtfulParts, d => d.Part == result.Next!.About && d.Program == result.Next.Program);
            }
        }

        Assert.Empty(blamed);
    }

    /// <summary>What is meant of clock, rain hold and the switch is often wrong as it stands: a check may say so.</summary>
    private static bool IsOnSettings(Finding finding) =>
        finding.Kind is not (
            FindingKind.ClockWrong or FindingKind.RainHoldLeft or FindingKind.OffLeftOn or FindingKind.IntervalWrongDay or FindingKind.StationInNoProgram);

    private static int Percent(Saying saying) =>
        saying.Meant.TryGetValue("pct", out string? percent) ? int.Parse(percent, CultureInfo.InvariantCulture) : 100;

    private static ListOf<Program> Programs(Saying saying) =>
    [
        .. Enumerable.Range(0, saying.Profile.Programs).Select(Profile.LetterOf).Where(l => saying.Meant.Keys.Any(k => k[0] == l))
            .Select(letter => new Program(
            letter,
            Items(saying, $"{letter}.t", "0300").Select(
                t => new LocalTime(int.Parse(t[..2], CultureInfo.InvariantCulture),
                    int.Parse(t[2..], CultureInfo.InvariantCulture))).ToListOf(),
            Items(saying, $"{letter}.r", $"{1 + letter - 'A'}:5").Select(RunOf).ToListOf(),
            RuleOf(saying.Meant.GetValueOrDefault($"{letter}.d", "1234567")))),
    ];

    private static IEnumerable<string> Items(Saying saying, string name, string otherwise) =>
        saying.Meant.GetValueOrDefault(name, otherwise) is var list && list is "none" or "" ? [] : list.Split(',');

    private static RunTime RunOf(string run)
    {
        string[] parts = run.Split(':');
        return new RunTime(int.Parse(parts[0], CultureInfo.InvariantCulture),
            int.Parse(parts[1].TrimEnd('s'), CultureInfo.InvariantCulture) * (parts[1].EndsWith('s') ? 1 : 60));
    }

    private static DayRule? RuleOf(string days) => days switch
    {
        "none" => null,
        "odd" => new OddDays(),
        "even" => new EvenDays(),
        "?" => new DaysOfWeek([IsoDayOfWeek.Monday]),
        _ when days[0] == 'I' =>
            new EveryNDays(int.Parse(days[1..].Split('/', '@')[0], CultureInfo.InvariantCulture), new LocalDate(2026, 7, 14)),
        _ => new DaysOfWeek(days.Select(d => (IsoDayOfWeek)(d - '0')).ToListOf()),
    };
}
