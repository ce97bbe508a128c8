using System.Text.Json;
using System.Text.RegularExpressions;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;
using Valvewright.Files.Timelines;
using Valvewright.Planning;
using Valvewright.Tests;

namespace Valvewright.Cli.Tests.Commands;

/// <summary>Every demo site that can be done is planned, and the proof finds no broken rule and no zone that goes short.</summary>
public partial class DemoSitesHoldTests
{
    [Theory]
    [InlineData("claybank")]
    [InlineData("gulf-reserve")]
    [InlineData("millrace-trail")]
    [InlineData("polder-green")]
    [InlineData("quarry-hill")]
    [InlineData("ridge-allotments")]
    [InlineData("saguaro-lane")]
    public async Task ThePlanHolds(string demo)
    {
        using Scratch scratch = new();
        Command.Outcome outcome = await Command.Run(["plan", Scratch.Demo(demo), "--from", "2026-04-01", "--out", scratch["out"]]);
        Assert.Equal("", outcome.Error);
        Assert.Equal(0, outcome.ExitCode);
        Assert.Contains("Rules: none broken on any day", outcome.Output, StringComparison.Ordinal);
        Assert.All(outcome.Output.Split('\n'), l => Assert.True(l.Length <= 80, l));
        Assert.True(File.Exists(scratch["out/cards.pdf"]));

        // What is planned and proven is said in the site's own units alone; a weather file keeps its own.
        bool us = (await File.ReadAllTextAsync(Path.Combine(Scratch.Demo(demo), "site.yaml")))
            .Contains("units: us", StringComparison.OrdinalIgnoreCase);
        string result = outcome.Output[outcome.Output.IndexOf("\nPrograms\n", StringComparison.Ordinal)..];
        int weather = result.IndexOf("\nWeather\n", StringComparison.Ordinal);
        int after = result.IndexOf("\nAssumptions", StringComparison.Ordinal);
        Assert.InRange(after, weather, result.Length);
        Assert.DoesNotMatch(us ? MetricUnits() : UsUnits(), result.Remove(weather, after - weather));

        Assert.Equal([], Objections(
            SurveyFiles.Read(Scratch.Demo(demo)).Site!, PlanFiles.Read(scratch["out/plan.json"]).Saved!.Plan, new LocalDate(2026, 4, 1)));

        // A practitioner's plan from a monthly table takes more water (tests/Shared/PlansByHand).
        string byHand = Path.Combine(Checkout.Root, "tests", "Shared", "PlansByHand", $"{demo}.json");
        if (File.Exists(byHand))
        {
            Command.Outcome proven = await Command.Run(["prove", Scratch.Demo(demo), "--plan", byHand, "--json"]);
            using JsonDocument hand = JsonDocument.Parse(proven.Output);
            using JsonDocument own = JsonDocument.Parse(await File.ReadAllTextAsync(scratch["out/proof.json"]));
            Assert.InRange(WaterOf(own.RootElement), 1, WaterOf(hand.RootElement.GetProperty("proof")));
        }
    }

    /// <summary>A site on a tank that the plan without it runs dry is planned within the tank: again with less to count on, until the proof
    /// finds that it serves.</summary>
    [Fact]
    public async Task A_site_on_a_small_tank_is_planned_within_it()
    {
        using Scratch scratch = new();
        string survey = (await File.ReadAllTextAsync(Path.Combine(Scratch.Demo("quarry-hill"), "site.yaml")))
            .Replace("../../reference", Path.Combine(Checkout.Root, "reference"), StringComparison.Ordinal);
        await File.WriteAllTextAsync(scratch["tank.yaml"], survey.Replace(
            "    pressure: 280 kPa", "    pressure: 280 kPa\n    tank: { volume: 2000 L, refill: 6 L/min }", StringComparison.Ordinal));
        await Command.Run(["plan", Scratch.Demo("quarry-hill"), "--from", "2026-04-01", "--out", scratch["without"], "--brief"]);
        Command.Outcome dry = await Command.Run(["prove", scratch["tank.yaml"], "--plan", scratch["without/plan.json"]]);
        Assert.Contains("the tank runs short", dry.Output, StringComparison.Ordinal);

        Command.Outcome within = await Command.Run(
            ["plan", scratch["tank.yaml"], "--from", "2026-04-01", "--out", scratch["within"], "--brief"]);
        Assert.Equal(0, within.ExitCode);
        Assert.Contains("Plan passes.", within.Output, StringComparison.Ordinal);
    }

    /// <summary>
    /// What a gardener would not have on any date of a year: an established lawn or bed sprinkled between half past seven and two in the
    /// morning, and water too little to reach the roots where the controller could hold rarer days. Habits of the trade (rule of thumb).
    /// Where a dozen controllers share a main, drip and bubblers may get less at a time: all of it does not fit (docs/planning.md).
    /// </summary>
    private static List<string> Objections(Site site, Plan plan, LocalDate from)
    {
        List<string> objections = [];
        LocalTime first = new(2, 0), last = new(7, 30);
        foreach (SiteController controller in site.Controllers)
        {
            SiteWaterings year = SiteWaterings.Of(site, plan, from, from.PlusYears(1).PlusDays(-1), controller.Name);
            foreach (Zone zone in controller.Zones.Where(z => z.Lasts))
            {
                Watering[] own = [.. year.Waterings.Where(w => w.Station == zone.Station)];
                objections.AddRange(own.Where(_ => zone.Emission.IsOverhead).Select(w => (Of(w.Opens), Of(w.Closes)))
                    .Where(w => w.Item1.TimeOfDay < first || w.Item2.TimeOfDay > last || w.Item1.Date != w.Item2.Date)
                    .Select(w => $"{controller.Name} {zone.Name}: {w.Item1} to {w.Item2.TimeOfDay}"));
                objections.AddRange(
                    own.Where(w => CanBeRarer(controller, w) && (zone.Emission.IsOverhead || site.Controllers.Count < Dozen))
                        .GroupBy(w => w.Shown.Date)
                        .Select(d => (Date: d.Key, Mm: d.Sum(w => w.Litres) / zone.AreaM2))
                        .Where(d => d.Mm < UsefulDepth.GrossMm(zone) - 1e-6)
                        .Select(d => $"{controller.Name} {zone.Name}: {d.Date} {d.Mm:0.0} mm"));
            }
        }

        return objections;

        bool CanBeRarer(SiteController controller, Watering watering) =>
            plan.For(controller.Name).Settings.Programs.Single(p => p.Letter == watering.Program).Days is { } days
            && controller.Profile.DayRules.Contains(DayRuleKind.Interval)
            && !(days is EveryNDays every
                && every.Days >= Math.Min(controller.Profile.LargestIntervalDays, new PlannerOptions().LongestIntervalDays));

        LocalDateTime Of(Instant at) => at.InZone(site.Zone()).LocalDateTime;
    }

    private const int Dozen = 12;

    private static double WaterOf(JsonElement proof) =>
        proof.GetProperty("comparison")[0].GetProperty("cubicMetresPerYear").GetDouble();

    [GeneratedRegex(@"\b(mm|m3|L/min)\b")]
    private static partial Regex MetricUnits();

    [GeneratedRegex(@"\b(gpm|gal)\b")]
    private static partial Regex UsUnits();
}
