using System.Text.Json;
using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Records;
using Valvewright.Records.Views;

namespace Valvewright.Server.Tests;

public sealed class VisitTests(Running running) : IClassFixture<Running>
{
    private static readonly byte[] Jpeg = [0xFF, 0xD8, 0xFF, 0xE0, 1, 2, 3];

    [Fact]
    public async Task A_visit_that_is_sent_twice_is_there_once()
    {
        Guid site = await running.Site(), visit = Ids.New();
        string address = $"/api/sites/{site}/visits/{visit}?by=Ana";
        Assert.Equal(201, (await running.Put(address, Running.AsJson(Running.Visit("wet box")))).Status);
        Assert.Equal(200, (await running.Put(address, Running.AsJson(Running.Visit("wet box")))).Status);
        Assert.Equal(200, (await running.Put(address, Running.AsJson(Running.Visit("dry box")), "\"1\"")).Status);
        Assert.Equal("\"2\"", (await running.Put(address, Running.AsJson(Running.Visit("dry box")), "\"1\"")).Tag);
        JsonElement only = Assert.Single((await running.Get($"/api/sites/{site}/visits")).Json.EnumerateArray());
        Assert.Equal(Running.Visit("dry box"), only.GetProperty("value").Deserialize<VisitValue>(Json.Options));

        JsonElement problem = (await running.Put(address, Running.AsJson(Running.Visit("third")), "\"1\"")).Problem(412, "changed-since");
        Assert.Equal("notes", Assert.Single(problem.GetProperty("yours").EnumerateArray()).GetProperty("member").GetString());
    }

    [Fact]
    public async Task Photos_belong_to_a_visit_and_are_pictures()
    {
        Guid site = await running.Site(), visit = Ids.New(), photo = Ids.New();
        string visits = $"/api/sites/{site}/visits/{visit}", address = $"{visits}/photos/{photo}";
        (await running.Put(address, Running.Bytes(Jpeg, "image/jpeg"))).Problem(404, "not-found");
        await running.Put(visits, Running.AsJson(Running.Visit()));
        Assert.Equal(201, (await running.Put(address, Running.Bytes(Jpeg, "image/jpeg"))).Status);
        Assert.Equal(200, (await running.Put(address, Running.Bytes(Jpeg, "image/jpeg"))).Status);
        Assert.Equal(Jpeg, (await running.Get(address)).Bytes);
        Assert.Equal(1, (await running.Get(visits)).Json.GetProperty("photos").GetArrayLength());
        (await running.Put($"{visits}/photos/{Ids.New()}", Running.Bytes("<svg onload=alert(1)>"u8.ToArray(), "image/jpeg")))
            .Problem(415, "wrong-type");
        (await running.Put($"{visits}/photos/{Ids.New()}", Running.Bytes("<svg/>"u8.ToArray(), "image/svg+xml")))
            .Problem(415, "wrong-type");
        (await running.Put($"{visits}/photos/{Ids.New()}", Running.Bytes(Jpeg, "image/png"))).Problem(415, "wrong-type");
        (await running.Get($"/api/sites/{site}/visits/{Ids.New()}/photos/{photo}")).Problem(404, "not-found");
        Assert.Equal(204, (await running.Send("DELETE", address, null, ("If-Match", "\"1\""))).Status);
        (await running.Get(address)).Problem(404, "not-found");
    }

    [Theory]
    [InlineData("\"batteryVolts\":8.7", "\"batteryVolts\":-1")]
    [InlineData("\"batteryVolts\":8.7", "\"batteryVolts\":\"NaN\"")]
    [InlineData("\"batteryVolts\":8.7", "\"batteryVolts\":1e999")]
    [InlineData("\"meterM3\":12.5", "\"meterM3\":12.5,\"meterM3\":13")]
    [InlineData("\"meterM3\":12.5", "\"meterM3\":12.5,\"admin\":true")]
    [InlineData("\"notes\":\"\"", "\"notes\":null")]
    [InlineData(",\"notes\":\"\"", "")]
    [InlineData("\"notes\":\"\"", "\"notes\":\"\\u0000\"")]
    [InlineData("\"notes\":\"\"", "\"notes\":\"\\ud800\"")]
    [InlineData("\"controller\":\"Gate\"", "\"controller\":\" \"")]
    [InlineData("\"controller\":\"Gate\"", "\"controller\":\"a\\nb\"")]
    [InlineData("2026-04-01T09:30:00", "2026-02-30T09:30:00")]
    [InlineData("2026-04-01T09:30:00", "9999-04-01T09:30:00")]
    [InlineData("\"ohms\":24.5", "\"ohms\":-24.5")]
    [InlineData("[{\"station\":1,\"ohms\":24.5}]", "[null]")]
    [InlineData("[{\"station\":1,\"ohms\":24.5}]", "null")]
    public async Task What_cannot_have_been_measured_or_written_is_refused(string right, string wrong)
    {
        Guid site = await running.Site();
        long before = running.Entries();
        string json = System.Text.Json.JsonSerializer.Serialize(Running.Visit(), Json.Compact);
        Assert.Contains(right, json, StringComparison.Ordinal);
        (await running.Put($"/api/sites/{site}/visits/{Ids.New()}", Running.AsJson(json.Replace(right, wrong, StringComparison.Ordinal))))
            .Problem(400, "wrong-input");
        Assert.Equal(before, running.Entries());
    }

    [Fact]
    public async Task A_reading_is_checked_against_the_plan_or_alone()
    {
        (Guid site, Guid plan) = await running.Planned();
        Guid reading = Ids.New();
        ReadingValue value = new("Gate", new LocalDateTime(2026, 4, 3, 9, 0), "A: starts 5:00 am 6:00 am; every 2 days; stations 1=5");
        Assert.Equal(201, (await running.Put($"/api/sites/{site}/readings/{reading}", Running.AsJson(value))).Status);
        JsonElement against = (await running.Get($"/api/sites/{site}/readings/{reading}/check")).Json;
        Assert.Equal(plan, against.GetProperty("plan").GetGuid());
        Assert.NotEqual(0, against.GetProperty("result").GetProperty("findings").GetArrayLength());
        JsonElement alone = (await running.Get($"/api/sites/{site}/readings/{reading}/check?alone=true&language=es")).Json;
        Assert.False(alone.GetProperty("result").GetProperty("againstPlan").GetBoolean());
        Assert.Equal(2, alone.GetProperty("understood").GetProperty("programs")[0].GetProperty("startTimes").GetArrayLength());
    }

    [Fact]
    public async Task Two_who_mend_one_visit_see_what_each_did_and_one_that_was_removed_can_be_put_back()
    {
        Guid site = await running.Site(), visit = Ids.New();
        string address = $"/api/sites/{site}/visits/{visit}";
        VisitValue common = Running.Visit("wet"), anas = common with { BatteryVolts = 8.1 }, bens = common with { Notes = "dry" };
        await running.Put(address, Running.AsJson(common));
        await running.Put(address + "?by=Ana", Running.AsJson(anas), "\"1\"");
        ProblemDocument problem = Engine.Values.Json.Read<ProblemDocument>(
            (await running.Put(address, Running.AsJson(bens), "\"1\"")).Text)!;
        Assert.Equal(("changed-since", 2L, "Ana"), (problem.Kind, problem.Version, problem.Changed!.By));
        Assert.Equal((common, anas, bens), (ValueOf(problem.Common), ValueOf(problem.Current), ValueOf(problem.Given)));
        Assert.Equal("batteryVolts", Assert.Single(ProblemDocument.Members(problem.Theirs)).Member);
        Assert.Equal("notes", Assert.Single(ProblemDocument.Members(problem.Yours)).Member);
        Assert.Equal(["batteryVolts", "notes"], ProblemDocument.Members(problem.FromCurrentToGiven).Select(c => c.Member).Order());

        Assert.Equal(204, (await running.Send("DELETE", address, null, ("If-Match", "\"2\""))).Status);
        problem = Engine.Values.Json.Read<ProblemDocument>((await running.Put(address, Running.AsJson(bens), "\"2\"")).Text)!;
        Assert.Equal((412, true, 3L), (problem.Status, problem.Removed, problem.Version));
        Assert.Equal((anas, bens), (ValueOf(problem.Common), ValueOf(problem.Given)));
        Assert.Equal(200, (await running.Put(address, Running.AsJson(bens), "\"3\"")).Status);

        static VisitValue? ValueOf(System.Text.Json.JsonElement? value) =>
            value is { } there ? System.Text.Json.JsonSerializer.Deserialize<VisitValue>(there, Engine.Values.Json.Options) : null;
    }
}
