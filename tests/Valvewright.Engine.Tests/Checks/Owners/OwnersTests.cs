using Valvewright.Engine.Checks.Seen;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Tests;
using Xunit.Abstractions;

namespace Valvewright.Engine.Tests.Checks.Owners;

/// <summary>What owners say they saw, written by hand, half of it in Spanish: useful, or asked about, never the opposite of what was
/// said.</summary>
public sealed class OwnersTests(ITestOutputHelper output)
{
    private static readonly SiteNames Names = SiteNames
        .Of(["Gate"], [(1, "Back lawn"), (2, "Front roses"), (3, "Old plane trees"), (4, "Hedge")]);

    [Theory]
    [InlineData("owners.txt")]
    [InlineData("turned-round.txt")]
    public void They_are_understood_or_asked_about(string file)
    {
        int exact = 0, asked = 0;
        List<string> wrong = [];
        string[] lines = [.. File.ReadLines(Path.Combine(Checkout.Root, "tests", "Valvewright.Engine.Tests", "Checks", "Owners", file))
            .Where(l => l.Length > 2 && l[0] != '#')];
        foreach (string[] parts in lines.Select(l => l.Split(" ## ")))
        {
            SeenText seen = ObservationText.Parse(parts[0], ClockStyle.Hours24, Names);
            string got = string.Join(
                " + ", seen.Observations.Select(Written).Concat(seen.Complaints.Select(c => $"fault {c.Kind}{At(c.Station)}")));
            bool doubted = seen.Doubts.Count > 0, same = got == Spread(parts[1]);
            exact += parts[1] == "ask" ? doubted ? 1 : 0 : same && !doubted ? 1 : 0;
            asked += doubted && parts[1] != "ask" ? 1 : 0;
            if (!doubted && !same)
            {
                wrong.Add($"{parts[0]}: {got}");
            }
        }

        output.WriteLine($"{file}: {lines.Length}; exact {exact}, asked {asked}, wrong {wrong.Count}");
        Assert.Empty(wrong);
        Assert.True(exact >= 0.9 * lines.Length);
    }

    [Fact]
    public void No_start_is_proposed_that_the_display_cannot_show()
    {
        Site site = CheckSite.Site;
        SiteController controller = CheckSite.North with { Profile = CheckSite.Profile with { StartStepMinutes = 15 } };
        SymptomResult result = Symptoms
            .Rank(site, controller, CheckSite.Plan, [new TimesADay(3, true)], new Engine.Checks.CheckContext(CheckSite.At));
        Assert.NotEmpty(result.Explanations);
        Assert.All(
            result.Explanations.SelectMany(e => e.Slips).SelectMany(s => s.Mend).OfType<Engine.Checks.StartChange>()
                .SelectMany(c => new[] { c.From, c.To }).OfType<NodaTime.LocalTime>(),
            t => Assert.Equal(0, t.Minute % 15));
    }

    private static string Spread(string wanted) =>
        wanted.StartsWith("noton ", StringComparison.Ordinal)
            ? string.Join(" + ", wanted[6..].Split(',').Select(d => $"noton {d}")) : wanted;

    private static string At(int station) => station > 0 ? $" s{station}" : "";

    private static string Day(NodaTime.IsoDayOfWeek day) => day.ToString()[..3].ToLowerInvariant();

    private static string Written(Observation seen) => seen switch
    {
        RanAt s =>
            $"at {s.Time:HH:mm}{(s.Ran ? "" : " not")}{(s.Weekday is { } day ? " " + Day(day) : "")}{(s.DaysAgo is { } ago ? $" ago{ago}" : "")}{At(s.Station)}",
        TimesADay s => $"times {s.Times} {(s.Night ? "night" : "day")}{At(s.Station)}",
        NothingFor s => $"nothing {s.Days?.ToString(System.Globalization.CultureInfo.InvariantCulture) ?? "-"}{At(s.Station)}",
        OnlyStations s => "only " + string.Join(' ', s.Stations.Select(n => $"s{n}")),
        RanOn s => $"{(s.Ran ? "on" : "noton")} {Day(s.Weekday)}{At(s.Station)}",
        RanOnlyOn s => "onlyon " + string.Join(',', s.Weekdays.Select(Day)),
        RanDaily s => "daily" + At(s.Station),
        RunsFor s => $"for {s.Minutes}{At(s.Station)}",
        RanOnDates s => "dates " + string.Join(' ', s.Dates),
        _ => seen.ToString(),
    };
}
