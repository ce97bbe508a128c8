using NodaTime;
using Valvewright.App.Pages.Plans;
using Valvewright.App.Pages.Proof;
using Valvewright.App.Person;
using Valvewright.App.Texts;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;
using Valvewright.Files.Texts;
using Valvewright.Records.Jobs;

namespace Valvewright.App.Tests.Pages;

/// <summary>What the server says of its work is said in the person's language, and what has no words is quoted, not lost.</summary>
public sealed class JobWordsTests
{
    private static readonly PageWords English = new(new Preferences(null!));
    private static readonly SiteWords Metric = new(UnitSystem.Metric, ClockStyle.Hours24, Wording.In(Language.English));

    private static JobView Job(string step, JobState state = JobState.Running) =>
        new(Guid.CreateVersion7(), Guid.CreateVersion7(), "plan", state, step, 0.1, Instant.FromUtc(2026, 1, 1, 0, 0), null, null, null);

    [Theory]
    [InlineData("Proving", "Proving …")]
    [InlineData("Planning Hillside tank: What each zone needs", "Planning Hillside tank …")]
    [InlineData("Something that nobody has heard of", "Working …")]
    public void A_step_is_told(string step, string told) => Assert.Equal(told, JobWords.Step(Job(step), English));

    [Fact]
    public void Work_that_waits_says_so() =>
        Assert.Equal("Waiting for other work …", JobWords.Step(Job("Proving", JobState.Waiting), English));

    [Theory]
    [InlineData("moreHours", "35 min more permitted hours on Tank, before the longest period")]
    [InlineData("moreFlow", "6.0 L/min more from Tank")]
    [InlineData("anotherDay", "Wednesday also permitted on Tank")]
    [InlineData("movedStation", "station 4 of Tank moved to station 2 of East")]
    [InlineData("lessAsked", "Cut plant water need on Tank by 10% (not new seed): hardier plants, or accept a drier look")]
    [InlineData("neverHeardOf", "as the planner says")]
    public void Advice_is_told(string kind, string told) => Assert.Equal(told, JobWords.Advice(
        new AdviceView(kind, "as the planner says", "Tank") { Minutes = 35, FlowLpm = 6, Day = IsoDayOfWeek.Wednesday, Station = 4,
            To = "East", ToStation = 2, Percent = 10 }, Metric, English));

    [Fact]
    public void Names_stay_as_they_are_in_places() =>
        Assert.Equal("North, program A, station 3 (Lawn)", ProofWords.Where("North, program A, station 3 (Lawn)", English));
}
