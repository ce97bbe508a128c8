using NodaTime;
using Valvewright.App.Pages.Cards;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Cards;
using Valvewright.Files.Surveys;
using Valvewright.Files.Texts;
using Valvewright.Tests;

namespace Valvewright.App.Tests.Pages;

/// <summary>The card to tick off says what the card on paper says, in the order in which it is keyed in.</summary>
public sealed class KeyStepsTests
{
    private static readonly Site Site = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", "quarry-hill", "site.yaml")).Site!;
    private static readonly LocalDate From = new(2026, 4, 8);

    private static ControllerPlan Gate(int percent = 100, int minutes = 14) => new(
        "Gate",
        new Settings([
            new Engine.Controllers.Program(
                'A', [new LocalTime(7, 30), new LocalTime(11, 15)], [new RunTime(1, minutes * 60)], new DaysOfWeek([IsoDayOfWeek.Monday])),
            new Engine.Controllers
                .Program('B', [new LocalTime(5, 45)], [new RunTime(3, 5340)], new EveryNDays(11, new LocalDate(2026, 4, 9))),
        ]),
        [new Visit(new AnnualDate(3, 1), percent), new Visit(new AnnualDate(11, 1), 0)]);

    private static ListOf<KeyStep> Steps(ControllerPlan plan, Language language = Language.English)
    {
        CardContent card = CardContent.Of(Site, new Plan(Site.Name, [plan]), "Gate", From);
        return KeySteps.Of(card, new CardPhrases(card, language));
    }

    [Fact]
    public void Steps_are_numbered_as_on_paper()
    {
        ListOf<KeyStep> steps = Steps(Gate());
        Assert.Equal(Enumerable.Range(1, steps.Count), steps.Select(s => s.Number));
        Assert.Equal(["Clock and date", "Program A", "Program B"], steps.Take(3).Select(s => s.Title));
        Assert.Equal("Check", steps[^1].Title);
    }

    [Fact]
    public void A_program_is_keyed_in_days_first_then_starts_then_runs()
    {
        KeyStep program = Steps(Gate())[1];
        Assert.Equal("Mon", program.Lines[0].Value);
        Assert.Equal(["07:30", "11:15"], program.Lines.Skip(1).Take(2).Select(l => l.Value));
        Assert.True(program.Lines[3].Empties);
        Assert.Equal("Start 3–4", program.Lines[3].Name);
        Assert.Contains("14", program.Lines[4].Value, StringComparison.Ordinal);
        Assert.All(program.Lines.Skip(5), l => Assert.Equal("0", l.Value));
    }

    [Fact]
    public void An_interval_says_how_many_days_until_its_first()
    {
        KeyLine first = Steps(Gate())[2].Lines[1];
        Assert.Equal("Days remaining: 1", first.Value);
    }

    [Theory]
    [InlineData(Language.English)]
    [InlineData(Language.Spanish)]
    public void No_two_lines_share_a_key(Language language)
    {
        string[] keys = [.. Steps(Gate(), language).SelectMany(s => s.Lines).Select(l => l.Key)];
        Assert.Equal(keys.Length, keys.Distinct().Count());
    }

    [Fact]
    public void A_value_that_changes_takes_its_tick_with_it_and_no_other()
    {
        string[] before = [.. Steps(Gate()).SelectMany(s => s.Lines).Select(l => l.Key)];
        string[] longer = [.. Steps(Gate(minutes: 15)).SelectMany(s => s.Lines).Select(l => l.Key)];
        string[] lower = [.. Steps(Gate(percent: 60)).SelectMany(s => s.Lines).Select(l => l.Key)];
        Assert.Single(longer.Except(before));
        Assert.Single(lower.Except(before));
    }

    [Fact]
    public void Names_can_hold_anything_in_an_address()
    {
        Guid site = Guid.CreateVersion7();
        string address = CardAddress.Of(site, null, "Nord & Süd / 1?", From);
        Assert.Equal($"sites/{site}/cards?controller=Nord%20%26%20S%C3%BCd%20%2F%201%3F&from=2026-04-08", address);
        Assert.Equal(From, CardAddress.ReadDate("2026-04-08"));
        Assert.Null(CardAddress.ReadDate("8 April"));
    }
}
