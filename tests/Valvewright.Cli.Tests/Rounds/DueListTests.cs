using System.Text.Json;
using NodaTime;
using Valvewright.Engine.Metering;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Season;
using Valvewright.Engine.Values;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;
using Valvewright.Files.Timelines;
using Valvewright.Tests;
using Valvewright.Work.Rounds;

namespace Valvewright.Cli.Tests.Rounds;

/// <summary>The plan by hand of Quarry Hill: its Terrace is set to 60% on 26 March, 100% on 1 June, 40% on 3 September, off on 15
/// October.</summary>
public sealed class DueListTests
{
    private static readonly SiteFacts Hill = new()
    {
        Site = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", "quarry-hill")).Site!,
        Plan = PlanFiles.Read(HandPlan).Saved!.Plan,
    };

    private static string HandPlan => Path.Combine(Checkout.Root, "tests", "Shared", "PlansByHand", "quarry-hill.json");

    [Fact]
    public void A_visit_is_due_a_week_around_its_date_and_worth_the_water_it_changes()
    {
        DueItem due = Terrace(new LocalDate(2026, 5, 28));
        Assert.Equal("Season visit: percent 60 to 100", due.Why.Text);
        Assert.Equal((new LocalDate(2026, 5, 25), new LocalDate(2026, 6, 8)), (due.Earliest, due.Latest));
        Assert.Equal(DueRisk.Medium, due.Risk);

        ControllerPlan own = Hill.Plan!.For("Terrace");
        double summer = SiteWaterings.Of(Hill.Site, Hill.Plan, new LocalDate(2026, 6, 1), new LocalDate(2026, 9, 2), "Terrace")
            .Waterings.Sum(w => w.Litres);
        Assert.Equal(0.4 * summer, due.WorthLitres!.Value, summer * 0.01);
        Assert.Equal(100, own.Visits[1].Percent);
    }

    [Fact]
    public void What_a_record_shows_decides_what_is_open()
    {
        LocalDate late = new(2026, 6, 20);
        Assert.Equal("Season visit: percent 100 to 40", Terrace(late).Why.Text);
        DueItem overdue = Terrace(late, new VisitDone("Terrace", new LocalDate(2026, 3, 26), 60));
        Assert.Equal(("Season visit: percent 60 to 100", DueRisk.High), (overdue.Why.Text, overdue.Risk));
        Assert.True(overdue.Latest < late);
        Assert.Equal("Season visit: percent 60 to 100", Terrace(late, new VisitDone("Terrace", new LocalDate(2026, 6, 2), 60)).Why.Text);
        Assert.Equal("Season visit: percent 100 to 40", Terrace(late, new VisitDone("Terrace", new LocalDate(2026, 5, 29), 100)).Why.Text);
        DueItem off = Terrace(new LocalDate(2026, 10, 14));
        Assert.Equal(("Season visit: turn off", DueRisk.Low), (off.Why.Text, off.Risk));
    }

    [Fact]
    public void Faults_meters_batteries_and_advice_stand_by_date_and_risk()
    {
        LocalDate today = new(2026, 7, 1);
        Instant now = Instant.FromUtc(2026, 6, 30, 12, 0);
        MeterInterval leak = new(now - Duration.FromDays(7), now, 60, 50, 2, MeterVerdict.Leak, null, 50);
        InYearAdvice worth = new("Gate", 100, 80, 900, 9000, new LocalDate(2026, 9, 3), null, 0, 0, 0, []);
        SiteFacts facts = Hill with
        {
            Plan = null,
            Faults = [new OpenFault("Gate", 2, "Station 2 never comes on", today.PlusDays(-1))],
            Batteries = [new BatteryDue("Terrace", today.PlusDays(20), 7.1), new BatteryDue("Gate", today.PlusDays(90), null)],
            Meters = [new MeterSeen("Hillside tank", leak),
                new MeterSeen("Hillside tank", leak with { Verdict = MeterVerdict.AsExpected })],
            Advice = [worth, worth with { Controller = "Terrace", SavedLitres = 10 }],
        };
        ListOf<DueItem> due = DueList.Of([facts], today, today.PlusDays(14), new DueMinutes());
        Assert.Equal([DueKind.Fault, DueKind.Meter, DueKind.Advice, DueKind.Battery], due.Select(d => d.Kind));
        Assert.Equal([40, 30, 5, 10], due.Select(d => d.Minutes));
        Assert.Equal([DueRisk.High, DueRisk.High, DueRisk.Medium, DueRisk.Medium], due.Select(d => d.Risk));
        Assert.Equal(50.0 * 24 * 7, due[1].WorthLitres);
        Assert.Equal("This year's weather: percent 100 to 80", due[2].Why.Text);
        Assert.Equal(DueRisk.High, DueList.Of([facts], today.PlusDays(15), today.PlusDays(15), new DueMinutes())
            .Single(d => d.Kind == DueKind.Battery).Risk);
        Assert.Equal(due, DueList.Of([facts], today, today.PlusDays(14), new DueMinutes()));
    }

    [Fact]
    public async Task The_command_reads_visits_promises_and_travel_times_from_tables()
    {
        using Scratch scratch = new();
        Directory.CreateDirectory(scratch["hill/out"]);
        string survey = (await File.ReadAllTextAsync(Path.Combine(Scratch.Demo("quarry-hill"), "site.yaml")))
            .Replace("../../reference", Path.Combine(Checkout.Root, "reference"), StringComparison.Ordinal);
        await File.WriteAllTextAsync(scratch["hill/site.yaml"], survey);
        File.Copy(HandPlan, scratch["hill/out/plan.json"]);
        await File.WriteAllTextAsync(
            scratch["done.csv"], "site,controller,date,percent\nQuarry Hill Memorial Garden,Gate,2026-06-01,100\n");
        await File.WriteAllTextAsync(
            scratch["promised.csv"], "site,date,from,to\nQuarry Hill Memorial Garden,2026-06-03,10:00,12:00\n");
        await File.WriteAllTextAsync(scratch["travel.csv"],
            "from,to,minutes\nStart,Quarry Hill Memorial Garden,17\nQuarry Hill Memorial Garden,End,18\n");
        Command.Outcome told = await Command.Run([
            "rounds", scratch["hill"], "--today", "2026-06-02", "--start", "38.35,48.80", "--done", scratch["done.csv"],
            "--promised", scratch["promised.csv"], "--travel", scratch["travel.csv"], "--json"]);
        Assert.Equal("", told.Error);
        using JsonDocument answer = JsonDocument.Parse(told.Output);
        JsonElement round = Assert.Single(answer.RootElement.GetProperty("rounds").EnumerateArray().ToArray());
        Assert.Equal("2026-06-03", round.GetProperty("on").GetString());
        JsonElement stop = Assert.Single(round.GetProperty("stops").EnumerateArray().ToArray());
        Assert.Equal(["Terrace"], stop.GetProperty("items").EnumerateArray().Select(i => i.GetProperty("controller").GetString()));
        Assert.StartsWith("1", stop.GetProperty("begins").GetString(), StringComparison.Ordinal);

        await File.WriteAllTextAsync(
            scratch["done.csv"], "site,controller,date,percent\nQuarry Hill Memorial Garden,Gait,2026-06-01,100\n");
        Command.Outcome wrong = await Command.Run(["rounds", scratch["hill"], "--done", scratch["done.csv"]]);
        Assert.NotEqual(0, wrong.ExitCode);
        Assert.Contains("Gait", wrong.Error, StringComparison.Ordinal);
        Assert.Contains("Gate", wrong.Error, StringComparison.Ordinal);
    }

    private static DueItem Terrace(LocalDate today, VisitDone? last = null) =>
        DueList.Of([last is null ? Hill : Hill with { LastVisits = [last] }], today, today.PlusYears(1), new DueMinutes())
            .Single(d => d.Controller == "Terrace");
}
