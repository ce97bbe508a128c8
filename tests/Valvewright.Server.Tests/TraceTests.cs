using System.Text.Json;
using NodaTime;
using Valvewright.Engine.Faults;
using Valvewright.Engine.Values;
using Valvewright.Records;
using Valvewright.Records.Carrying;
using Valvewright.Records.Views;

namespace Valvewright.Server.Tests;

/// <summary>A trace is put aside by one person and taken up by another, and what repairs confirmed is learned from.</summary>
public sealed class TraceTests(Running running) : IClassFixture<Running>
{
    internal static readonly TraceCase Begun = new()
    {
        Site = "Test", Controller = "Gate", Station = 2, Complaint = "never on", Began = new LocalDateTime(2026, 5, 1, 9, 0),
        Answers = [new TraceAnswer("click", "none", By: "Ana", At: new LocalDateTime(2026, 5, 1, 9, 5)),
            new TraceAnswer("loop ohms", Value: 1e9)],
    };

    [Fact]
    public async Task One_person_puts_it_aside_and_another_goes_on()
    {
        Guid site = await running.Site(), trace = Ids.New();
        string address = $"/api/sites/{site}/traces/{trace}";
        Assert.Equal(201, (await running.Put($"{address}?by=Ana", Running.AsJson(Value(Begun)))).Status);
        CarryView carried = (await running.Get($"/api/sites/{site}/carry.json")).Json.Deserialize<CarryView>(Json.Options)!;
        RecordView<TraceValue> aside = Assert.Single(carried.Traces);
        Assert.Equal(("Ana", Begun), (aside.Changed.By, aside.Value.Trace));
        TraceCase on = aside.Value.Trace.With(new TraceAnswer("coil ohms", Value: 6.1, By: "Ben")) with { Confirmed = "wire open" };
        (await running.Put($"{address}?by=Cem", Running.AsJson(Value(on with { Confirmed = null })), "\"7\""))
            .Problem(412, "changed-since");
        Assert.Equal(200, (await running.Put($"{address}?by=Ben", Running.AsJson(Value(on)), $"\"{aside.Version}\"")).Status);
        CarryView after = (await running.Get($"/api/sites/{site}/carry.json")).Json.Deserialize<CarryView>(Json.Options)!;
        Assert.Equal(on, Assert.Single(after.Traces).Value.Trace);
        Assert.Contains("wire open", after.ConfirmedCauses);
        Guid other = await running.Site();
        Assert.Contains("wire open",
            (await running.Get($"/api/sites/{other}/carry.json")).Json.Deserialize<CarryView>(Json.Options)!.ConfirmedCauses);
        Assert.Contains((await running.Get($"/api/sites/{site}/history")).Json.EnumerateArray(), e =>
            e.GetProperty("kind").GetString() == "trace");
    }

    [Fact]
    public async Task What_no_page_sends_is_refused()
    {
        Guid site = await running.Site();
        string json = JsonSerializer.Serialize(Value(Begun), Json.Compact);
        foreach (string wrong in (string[])[json.Replace("\"never on\"", "null", StringComparison.Ordinal),
            json.Replace("never on", "a\\nb", StringComparison.Ordinal),
                json.Replace("2026-05-01T10", "9999-05-01T10", StringComparison.Ordinal)])
        {
            Assert.NotEqual(json, wrong);
            (await running.Put($"/api/sites/{site}/traces/{Ids.New()}", Running.AsJson(wrong))).Problem(400, "wrong-input");
        }

        (await running.Get($"/api/sites/{site}/traces/{Ids.New()}")).Problem(404, "not-found");
    }

    internal static TraceValue Value(TraceCase trace) => new("Gate", new LocalDateTime(2026, 5, 1, 10, 0), trace, "notes");
}
