using NodaTime;
using Valvewright.App.Pages.Reading;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Checks.Seen;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;
using Valvewright.Tests;
using Valvewright.Work;

namespace Valvewright.App.Tests.Pages.Reading;

/// <summary>A check in the page comes to what the engine says, and can be given up.</summary>
public sealed class Checks
{
    private static readonly Site Site = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", "quarry-hill", "site.yaml")).Site!;
    private static readonly Plan Plan = PlanFiles
        .Read(Path.Combine(Checkout.Root, "tests", "Shared", "Slips", "Plans", "quarry-hill.json")).Saved!.Plan;
    private static readonly LocalDateTime At = new(2026, 7, 14, 15, 20);

    [Fact]
    public async Task It_is_the_same_in_steps_as_at_once()
    {
        CheckRequest asked = Asked("percent 50", "nothing for a week");
        List<double> done = [];
        CheckReport answer = await CheckRun.Of(asked, done.Add, CancellationToken.None);
        Assert.Equal(Check.Of(Site, asked.Controller, Plan, asked.Read.Reading, new CheckContext(At)), answer.Check);
        Assert.Equal(Symptoms.Rank(Site, asked.Controller, Plan, asked.Seen!, new CheckContext(At), asked.Read.Reading), answer.Symptoms);
        Assert.Equal(done.Order(), done);
    }

    [Fact]
    public async Task Another_question_ends_it()
    {
        using CancellationTokenSource cancel = new();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(
            () => CheckRun.Of(Asked("", "twice a night"), _ => cancel.Cancel(), cancel.Token));
    }

    private static CheckRequest Asked(string read, string seen) =>
        new(Site, Site.ControllerNamed("Gate"), Plan, ReadingText.Parse(read), ObservationText.Parse(seen, Site.Clock).Observations, At,
            CheckLanguage.English);
}
