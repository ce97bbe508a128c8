using NodaTime;
using NodaTime.Testing;
using Valvewright.App.Pages.Survey;
using Valvewright.App.Shelf;
using Valvewright.App.Tests.Outbox;
using Valvewright.Records;

namespace Valvewright.App.Tests.Survey;

/// <summary>Two windows of one device at one unfinished survey: neither overwrites what the other has written without the person's
/// word.</summary>
public sealed class DraftsOfTwoWindows
{
    private readonly FakeDevice device = new();
    private readonly Guid site = Ids.New();

    private SurveyDrafts Window() => new(new DeviceShelf(device.Window()), null!, null!,
        new FakeClock(Instant.FromUtc(2026, 7, 14, 12, 0), Duration.FromSeconds(1)), null!, null!);

    private SurveyDraft Draft(string text) => new(site, false, text, "\"1\"", "place", default);

    [Fact]
    public async Task The_one_that_comes_second_is_told_and_what_the_first_wrote_stays()
    {
        SurveyDrafts one = Window(), other = Window();
        Assert.Null(await one.FindAsync(site));
        Assert.Null(await other.FindAsync(site));
        Assert.True(await one.KeepAsync(Draft("one")));
        Assert.False(await other.KeepAsync(Draft("other")));
        Assert.Equal("one", (await Window().FindAsync(site))!.Text);
        Assert.True(await one.KeepAsync(Draft("one, more")));
        Assert.False(await other.KeepAsync(Draft("other, more")));
        Assert.Equal("one, more", (await other.FindAsync(site))!.Text);
        Assert.True(await other.KeepAsync(Draft("both")));
        Assert.False(await one.KeepAsync(Draft("one, later")));
    }

    [Fact]
    public async Task What_the_person_chooses_is_kept_and_the_other_window_is_told_then()
    {
        SurveyDrafts one = Window(), other = Window();
        await one.FindAsync(site);
        await other.FindAsync(site);
        await one.KeepAsync(Draft("one"));
        Assert.True(await other.KeepAsync(Draft("other"), anyway: true));
        Assert.Equal("other", (await Window().FindAsync(site))!.Text);
        Assert.False(await one.KeepAsync(Draft("one, more")));
    }

    [Fact]
    public async Task What_one_window_has_sent_or_thrown_away_is_not_written_again_unasked_by_another()
    {
        SurveyDrafts one = Window(), other = Window();
        await one.KeepAsync(Draft("one"));
        await other.FindAsync(site);
        await one.DiscardAsync(Draft("one"));
        Assert.False(await other.KeepAsync(Draft("other")));
        Assert.True(await one.KeepAsync(Draft("begun again")));
    }

    [Fact]
    public async Task Changes_of_one_window_that_come_close_together_are_its_own()
    {
        SurveyDrafts one = Window();
        await one.FindAsync(site);
        bool[] kept = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => one.KeepAsync(Draft($"{n}"))));
        Assert.All(kept, Assert.True);
        Assert.Equal("7", (await Window().FindAsync(site))!.Text);
    }
}
