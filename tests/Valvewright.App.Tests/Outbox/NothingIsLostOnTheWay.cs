using NodaTime;
using NodaTime.Testing;
using Valvewright.App.Outbox;
using Valvewright.App.Pages.Own;
using Valvewright.App.Person;
using Valvewright.App.Shelf;
using Valvewright.App.Texts;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Records;

namespace Valvewright.App.Tests.Outbox;

/// <summary>What is recorded leaves the device when the server itself has said that it keeps it, and not before.</summary>
public sealed class NothingIsLostOnTheWay : IDisposable
{
    private readonly FakeDevice device = new();
    private readonly FakeServer server = new();
    private readonly FakeClock clock = new(Instant.FromUtc(2026, 7, 14, 12, 0));
    private readonly Guid visit = Ids.New();

    public void Dispose() => server.Dispose();

    [Theory]
    [InlineData(Fate.NoServer, Halt.NoServer)]
    [InlineData(Fate.AnswerLost, Halt.NoServer)]
    [InlineData(Fate.AnswerCut, Halt.Stranger)]
    [InlineData(Fate.SignInPage, Halt.Stranger)]
    [InlineData(Fate.ForeignJson, Halt.Stranger)]
    [InlineData(Fate.SignedOut, Halt.Stranger)]
    [InlineData(Fate.Trouble, Halt.ServerInTrouble)]
    internal async Task It_stays_whatever_answers_but_the_server_and_is_kept_once_in_the_end(Fate fate, Halt halt)
    {
        Window window = new(device, server, clock);
        server.Fate = () => fate;
        await window.Record(visit, "first");
        UnsentRecord record = Assert.Single(window.Unsent.Records);
        Assert.Null(record.Refusal);
        Assert.Equal(halt, window.Unsent.Halted);
        server.Fate = () => Fate.Arrives;
        await new Window(device, server, clock).Unsent.SendAsync();
        await window.Unsent.RereadAsync();
        Assert.Empty(window.Unsent.Records);
        Assert.Equal((1, Window.Visit("first")), server.Kept[Window.Address(visit)]);
        Assert.Equal(1, server.Changes);
    }

    [Fact]
    public async Task A_photo_waits_for_its_visit_even_when_the_clock_was_set_back_between()
    {
        Window window = new(device, server, clock);
        server.Fate = () => Fate.NoServer;
        await window.KeepOnly(visit, "first");
        clock.Reset(Instant.FromUtc(2019, 1, 1, 0, 0));
        Guid photo = Ids.New();
        await window.Photo(photo, visit, [0xFF, 0xD8, 0xFF, 1]);
        server.Fate = () => Fate.Arrives;
        await window.Unsent.SendAsync();
        Assert.Empty(window.Unsent.Records);
        Assert.Equal([Window.Address(visit), $"{Window.Address(visit)}/photos/{photo}"], server.Asked);
        await new SentPhotos(window.Shelf).MakeRoomAsync();
        Assert.Empty(device.Kept);
    }

    [Fact]
    public async Task A_photo_is_not_sent_while_its_visit_could_not_be()
    {
        Window window = new(device, server, clock);
        await window.KeepOnly(visit, "wrong");
        await window.Photo(Ids.New(), visit, [0xFF, 0xD8, 0xFF]);
        server.Fate = () => Fate.Trouble;
        await window.Unsent.SendAsync();
        Assert.Equal([Window.Address(visit)], server.Asked);
        Assert.All(window.Unsent.Records, r => Assert.Null(r.Refusal));
        Assert.Equal(2, window.Unsent.Records.Count);
    }

    [Fact]
    public async Task What_is_changed_while_it_is_on_its_way_is_not_taken_for_sent()
    {
        Window window = new(device, server, clock), other = new(device, server, clock);
        bool isChanged = false;
        server.Meanwhile = async () =>
        {
            if (!isChanged)
            {
                isChanged = true;
                await other.KeepOnly(visit, "second");
            }
        };
        await window.Record(visit, "first");
        Assert.Equal(Window.Visit("second"), Assert.Single(window.Unsent.Records).Body);
        await window.Unsent.SendAsync();
        Assert.Empty(window.Unsent.Records);
        Assert.Equal((2, Window.Visit("second")), server.Kept[Window.Address(visit)]);
    }

    [Fact]
    public async Task A_correction_after_a_lost_answer_meets_nobody_but_itself()
    {
        Window window = new(device, server, clock);
        server.Fate = () => Fate.AnswerLost;
        await window.Record(visit, "first");
        server.Fate = () => Fate.Arrives;
        await new Window(device, server, clock).Record(visit, "second");
        Assert.Equal((2, Window.Visit("second")), server.Kept[Window.Address(visit)]);
        Assert.DoesNotContain(device.Kept.Keys, k => k.Store == "unsent");
    }

    [Fact]
    public async Task Where_somebody_else_was_first_it_stays_with_both_versions()
    {
        Window window = new(device, server, clock);
        await window.Record(visit, "first");
        server.ChangeElsewhere(Window.Address(visit), Window.Visit("theirs"));
        await window.Record(visit, "mine", "\"1\"");
        UnsentRecord refused = Assert.Single(window.Unsent.Records);
        Assert.NotNull(refused.Refusal);
        Assert.Contains("theirs", refused.Problem, StringComparison.Ordinal);
        await window.Unsent.Replace(refused with { Version = "\"2\"" });
        Assert.Empty(window.Unsent.Records);
        Assert.Equal((3, Window.Visit("mine")), server.Kept[Window.Address(visit)]);
    }

    [Fact]
    public async Task A_full_device_says_so_and_keeps_what_it_had()
    {
        Window window = new(device, server, clock);
        server.Fate = () => Fate.NoServer;
        await window.Record(visit, "first");
        device.IsFull = true;
        ShelfException full = await Assert.ThrowsAsync<ShelfException>(() => window.Record(visit, "second"));
        Assert.True(full.IsFull);
        Assert.Equal(Window.Visit("first"), Assert.Single(window.Unsent.Records).Body);
    }

    [Fact]
    public async Task Two_windows_that_send_at_once_send_each_record_once()
    {
        Window window = new(device, server, clock), other = new(device, server, clock);
        for (int i = 0; i < 8; i++)
        {
            await window.KeepOnly(Ids.New(), $"visit {i}");
        }

        await Task.WhenAll(window.Unsent.SendAsync(), other.Unsent.SendAsync(), window.Unsent.SendAsync());
        Assert.Equal(8, server.Asked.Count);
        Assert.Equal(8, server.Changes);
        Assert.Empty(device.Kept);
    }

    [Fact]
    public async Task Both_can_be_kept_as_two_visits_with_the_photos_of_mine()
    {
        Window window = new(device, server, clock);
        server.ChangeElsewhere(Window.Address(visit), Window.Visit("theirs"));
        await window.KeepOnly(visit, "mine");
        Guid photo = Ids.New();
        await window.Photo(photo, visit, [0xFF, 0xD8, 0xFF, 7]);
        server.Fate = () => Fate.Trouble;
        await window.Unsent.SendAsync();
        server.Fate = () => Fate.Arrives;
        await window.Unsent.SendAsync();
        UnsentRecord refused = window.Unsent.Records.Single(r => r.Kind == "visit");
        Assert.NotNull(refused.Refusal);
        Guid mine = await window.Unsent.KeepBoth(refused);
        Assert.Empty(window.Unsent.Records);
        Assert.Equal(Window.Visit("theirs"), server.Kept[Window.Address(visit)].Body);
        Assert.Equal(Window.Visit("mine"), server.Kept[Window.Address(mine)].Body);
        Assert.Contains($"{Window.Address(mine)}/photos/{photo}", server.Kept.Keys);
    }

    [Fact]
    public async Task What_waits_is_told_in_words()
    {
        Window window = new(device, server, clock);
        await window.Record(visit, "first");
        server.ChangeElsewhere(Window.Address(visit), Window.Visit("theirs"));
        await window.Record(visit, "mine", "\"1\"");
        UnsentRecord refused = Assert.Single(window.Unsent.Records);
        PageWords words = new(new Preferences(new Device(device.Window())));
        Assert.Equal("Visit: Gate, Tue 14 Jul 2026, 15:20", UnsentWords.Title(refused, words));
        Assert.StartsWith("Another person changed it", UnsentWords.Why(refused, words), StringComparison.Ordinal);
        Assert.Contains(UnsentWords.Says(refused, words), m => m is ("Battery", "8.9 V"));
        Assert.Equal("notes", Assert.Single(UnsentWords.MeetingOf(refused)!.Pieces, p => !p.IsAgreed).Name);
    }

    [Fact]
    public async Task What_waits_is_told_in_the_units_and_clock_style_of_its_site_else_of_the_device()
    {
        device.Habits = [true, true];
        Preferences preferences = new(new Device(device.Window()));
        await preferences.LoadAsync();
        PageWords words = new(preferences);
        string body = System.Text.Json.JsonSerializer
            .Serialize(new VisitValue("Gate", new LocalDateTime(2026, 7, 14, 15, 20), "", "", null, [], 10, ""), Json.Compact);
        UnsentRecord known = new(visit, visit, "visit", "", "application/json", body, null, clock.GetCurrentInstant(), "")
            { Units = UnitSystem.Metric, Clock = ClockStyle.Hours24 };
        UnsentRecord unknown = known with { Units = null, Clock = null };
        Assert.Equal("Visit: Gate, Tue 14 Jul 2026, 15:20", UnsentWords.Title(known, words));
        Assert.Equal("Visit: Gate, Tue 14 Jul 2026, 3:20 pm", UnsentWords.Title(unknown, words));
        Assert.Contains(("Water meter", "10 m³"), UnsentWords.Says(known, words));
        Assert.Contains(("Water meter", "2,641.7 gal"), UnsentWords.Says(unknown, words));
        Assert.DoesNotContain("m,", UnsentWords.Made(known, words), StringComparison.Ordinal);
        Assert.EndsWith("m", UnsentWords.Made(unknown, words), StringComparison.Ordinal);
    }
}
