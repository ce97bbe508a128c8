using System.Text.Json;
using NodaTime;
using Valvewright.App.Pages.History;
using Valvewright.App.Person;
using Valvewright.App.Tests.Outbox;
using Valvewright.App.Texts;
using Valvewright.Engine.Values;
using Valvewright.Records;
using Valvewright.Records.Views;

namespace Valvewright.App.Tests.Pages.History;

/// <summary>What was changed is told in words: values of a visit, lines of a survey.</summary>
public sealed class HistoryLines
{
    private static readonly PageWords Words = new(new Preferences(new Device(new FakeDevice().Window())));
    private static readonly VisitValue Visit =
        new("Gate", new LocalDateTime(2026, 7, 14, 15, 20), "", "", 8.9, [new CoilReading(1, 5.2)], null, "");

    [Fact]
    public void A_changed_visit_tells_what_changed_and_nothing_else()
    {
        HistoryLine line = Line(RecordKind.Visit, Visit, Visit with { BatteryVolts = 7.1 });
        Assert.Equal("Visit: changed – Gate", line.Title(Words));
        var (member, from, to) = Assert.Single(line.Members);
        Assert.Equal(("Battery", "8.9 V", "7.1 V"), (HistoryLine.Name(member, Words),
            HistoryLine.Shown(member, from, Words, Words.OfDevice), HistoryLine.Shown(member, to, Words, Words.OfDevice)));
    }

    [Fact]
    public void A_removed_visit_and_one_brought_back_are_told()
    {
        Assert.Equal(Deed.Removed, Line<VisitValue>(RecordKind.Visit, Visit, null).Deed);
        Assert.Equal(Deed.Made, Line(RecordKind.Visit, null, Visit).Deed);
        Assert.Equal(Deed.Returned, Line(RecordKind.Visit, null, Visit, undoOf: 3).Deed);
    }

    [Fact]
    public void A_changed_survey_is_told_by_its_lines()
    {
        HistoryLine line = Line(RecordKind.Site, new SiteValue("Gate", "site: Gate\nunits: metric\nsoil: loam", "a"),
            new SiteValue("Gate", "site: Gate\nunits: metric\nsoil: clay", "b"));
        Assert.Equal(new LineChange(3, 3, ["soil: loam"], ["soil: clay"]), Assert.Single(line.Lines));
        Assert.Empty(line.Members);
    }

    private static HistoryLine Line<T>(RecordKind kind, T? before, T? after, long? undoOf = null)
        where T : class => HistoryLine.Of(
            new EntryView(7, kind, Guid.NewGuid(), 2, new Stamp("Ana", Instant.FromUtc(2026, 7, 14, 12, 0)), ElementOf(before),
                ElementOf(after), undoOf, null));

    private static JsonElement? ElementOf<T>(T? value)
        where T : class => value is null ? null : JsonSerializer.SerializeToElement(value, Json.Options);
}
