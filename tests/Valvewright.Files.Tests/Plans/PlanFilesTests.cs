using System.Text;
using CsCheck;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Ground;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Files.Plans;
using Valvewright.Files.Problems;
using Valvewright.Tests;

namespace Valvewright.Files.Tests.Plans;

public class PlanFilesTests
{
    private static readonly Site Site = new()
    {
        Name = "Test green",
        Place = new Place(38.5, -121.7, 20),
        TimeZone = "America/Los_Angeles",
        Supplies = [new WaterSupply("main", 20, double.NaN, PermittedTimes.Always)],
        Controllers =
        [
            new SiteController
            {
                Name = "North",
                Supply = "main",
                Profile = new Profile
                    { Name = "small", Stations = 2, Programs = 2, StartTimesPerProgram = 2, DayRules = [DayRuleKind.Interval] },
                Zones =
                [
                    new Zone
                    {
                        Name = "Lawn",
                        Station = 1,
                        AreaM2 = 50,
                        Planting = new Planting("turf", PlantStage.Established, [1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1], 0.2, 0.5),
                        Soil = new Soil("loam", 120, 15, 6),
                        Emission = new Emission(EmissionKind.Spray, 12, 10, SpotShares.Even),
                    },
                ],
            },
        ],
    };

    private static readonly SavedPlan Saved = SavedPlan.Of(
        Site,
        new Plan("Test green",
            [new ControllerPlan(
                "North", new Settings(
                    [new Program('A', [new LocalTime(5, 30)], [new RunTime(1, 600)], new EveryNDays(2, new LocalDate(2026, 4, 1)))], 90),
                        [new Visit(new AnnualDate(4, 1), 90), new Visit(new AnnualDate(10, 20), 0)])]),
        new LocalDate(2026, 4, 1));

    [Fact]
    public void WhatIsWrittenIsReadBack() => Assert.Equal(Saved, PlanFiles.Parse(PlanFiles.Write(Saved), "plan.json").Saved);

    [Fact]
    public void AChangedSurveyIsNoticedAndAMovedWeatherFileIsNot()
    {
        Assert.True(Saved.IsFor(Site with { Weather = new WeatherSource("elsewhere.csv", null, null) }));
        Zone larger = Site.Controllers[0].Zones[0] with { AreaM2 = 51 };
        Assert.False(Saved.IsFor(Site with { Controllers = [Site.Controllers[0] with { Zones = [larger] }] }));
    }

    [Fact]
    public void APlanWithAHoleIsRefusedWithItsPlace()
    {
        PlanReading reading = PlanFiles
            .Parse(PlanFiles.Write(Saved).Replace("\"programs\"", "\"programmes\"", StringComparison.Ordinal), "plan.json");
        Assert.Null(reading.Saved);
        Assert.Contains("settings", Assert.Single(reading.Problems).Message, StringComparison.Ordinal);
        Assert.True(reading.Problems[0].Line > 1);
    }

    [Theory]
    [InlineData("""{"a": 1}""", "an entry that no plan has: a")]
    [InlineData("""{"version": 1, "survey": ""}""", "left out: from, plan")]
    [InlineData("""{"version": "one"}""", "a value of another kind")]
    public void What_is_wrong_is_said_in_terms_of_the_file(string text, string found)
    {
        Problem problem = Assert.Single(PlanFiles.Parse(text, "plan.json").Problems);
        Assert.Equal(found, problem.Found);
    }

    [Theory]
    [InlineData("")]
    [InlineData("null")]
    [InlineData("{}")]
    [InlineData("[1, 2]")]
    [InlineData("\u0000")]
    public void WhatIsNoPlanIsRefused(string text)
    {
        PlanReading reading = PlanFiles.Parse(text, "plan.json");
        Assert.Null(reading.Saved);
        Assert.Single(reading.Problems);
    }

    [Fact]
    public void AnotherVersionIsRefused() =>
        Assert.Contains("version 2", PlanFiles.Parse(PlanFiles.Write(Saved with { Version = 2 }), "plan.json").Problems[0].Found,
            StringComparison.Ordinal);

    [Fact]
    public void AFolderOrNothingInPlaceOfAFileIsRefused()
    {
        Assert.Equal("a folder", PlanFiles.Read(Path.GetTempPath()).Problems[0].Found);
        Assert.Equal("no such file", PlanFiles.Read(Path.Combine(Path.GetTempPath(), "no-such-plan.json")).Problems[0].Found);
    }

    /// <summary>Any change of a few characters gives a plan or a problem, never an exception.</summary>
    [Fact]
    public void AnySpoiltFileIsReadOrRefused()
    {
        string whole = PlanFiles.Write(Saved);
        Gen.Select(Gen.Int[0, whole.Length - 1], Gen.Int[0, 12], Gen.String["0129-:,.{}[]\"nulaetrf \u0000\ud83d"])
            .ForEvery((at, length, put) =>
        {
            string spoilt = new StringBuilder(whole).Remove(at, Math.Min(length, whole.Length - at)).Insert(at, put).ToString();
            PlanReading reading = PlanFiles.Parse(spoilt, "plan.json");
            return (reading.Saved is null) == (reading.Problems.Count > 0);
        }, iter: 5000);
    }
}
