using NodaTime;
using Valvewright.App.Pages.Visits;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;
using Valvewright.Records;
using Valvewright.Tests;

namespace Valvewright.App.Tests.Pages.Visits;

/// <summary>What is typed into the form of a visit is understood as a person means it, or refused field by field.</summary>
public sealed class VisitEntries
{
    private static readonly Site Site = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", "quarry-hill", "site.yaml")).Site!;
    private static readonly Plan Plan = PlanFiles
        .Read(Path.Combine(Checkout.Root, "tests", "Shared", "Slips", "Plans", "quarry-hill.json")).Saved!.Plan;
    private static readonly VisitDraft Draft = new(Ids.New()) { Controller = "Gate", Date = "2026-07-14", Time = "15:20" };

    [Theory]
    [InlineData("8.9", 8.9)]
    [InlineData("8,9", 8.9)]
    [InlineData(" 8.9 V ", 8.9)]
    [InlineData("", null)]
    public void Volts_are_read_with_point_or_comma(string typed, double? volts)
    {
        VisitEntry entry = VisitEntry.Of(Draft with { Battery = typed }, Site, null);
        Assert.Equal(volts, entry.Value!.BatteryVolts);
    }

    [Theory]
    [InlineData("nine")]
    [InlineData("-1")]
    [InlineData("31")]
    [InlineData("1e400")]
    [InlineData("NaN")]
    public void Volts_that_cannot_be_are_told(string typed)
    {
        VisitEntry entry = VisitEntry.Of(Draft with { Battery = typed }, Site, null);
        Assert.Null(entry.Value);
        Assert.Equal(new VisitProblem(VisitField.Battery), Assert.Single(entry.Problems));
    }

    [Theory]
    [InlineData("5.2", 5.2)]
    [InlineData("5,2 ohm", 5.2)]
    [InlineData("OL", VisitEntry.OpenOhms)]
    [InlineData("abierto", VisitEntry.OpenOhms)]
    public void Coils_are_ohms_or_no_value(string typed, double ohms)
    {
        VisitEntry entry = VisitEntry.Of(Draft.WithCoil(2, typed), Site, null);
        Assert.Equal([new CoilReading(2, ohms)], entry.Value!.CoilOhms);
    }

    /// <summary>2,000 gal is 7.570823568 m3 by the US gallon of 231 cubic inches.</summary>
    [Fact]
    public void A_meter_is_read_in_the_units_of_the_site()
    {
        Assert.Equal(1250.4, VisitEntry.Of(Draft with { Meter = "1250,4" }, Site, null).Value!.MeterM3);
        Assert.Equal(7.570823568,
            VisitEntry.Of(Draft with { Meter = "2000" }, Site with { Units = UnitSystem.UsCustomary }, null).Value!.MeterM3!.Value, 9);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void What_is_filled_in_from_the_card_matches_the_card(bool spanish)
    {
        foreach (string controller in Site.Controllers.Select(c => c.Name))
        {
            for (LocalDate date = new(2026, 1, 5); date < new LocalDate(2027, 1, 5); date = date.PlusDays(17))
            {
                string card = VisitEntry.CardText(Site, Plan, controller, date + new LocalTime(15, 20), spanish);
                VisitEntry entry = VisitEntry
                    .Of(Draft with { Controller = controller, Date = date.ToString("uuuu-MM-dd", null), AsLeft = card }, Site, Plan);
                Assert.Empty(entry.Left.Doubts);
                Assert.True(entry.AgainstCard!.Matches, $"{controller} {date}: {card}");
            }
        }
    }

    [Fact]
    public void One_run_time_other_than_the_card_is_seen()
    {
        string card = VisitEntry.CardText(Site, Plan, "Gate", new LocalDateTime(2026, 7, 14, 15, 20), spanish: false);
        string other = System.Text.RegularExpressions.Regex.Replace(card, @"st2=\d+m", "st2=7m");
        Assert.NotEqual(card, other);
        VisitEntry entry = VisitEntry.Of(Draft with { AsLeft = other }, Site, Plan);
        Assert.False(entry.AgainstCard!.Matches);
        Assert.NotNull(entry.AgainstCard.Check);
    }

    [Fact]
    public void What_was_not_read_is_not_taken_as_on_the_card()
    {
        VisitEntry entry = VisitEntry.Of(Draft with { AsLeft = "percent 100" }, Site, Plan);
        Assert.Null(entry.AgainstCard!.Check);
        Assert.NotEmpty(entry.AgainstCard.Unread);
        Assert.False(entry.AgainstCard.Matches);
    }

    [Fact]
    public void A_visit_survives_being_written_and_corrected()
    {
        VisitDraft draft = Draft.WithCoil(1, "5.25").WithCoil(3, "OL") with
            { Battery = "8.75", Meter = "1250.4", AsFound = "off", Notes = "lid cracked" };
        VisitValue first = VisitEntry.Of(draft, Site, null).Value!;
        Assert.Equal(first, VisitEntry.Of(VisitDraft.Of(draft.Id, "\"1\"", first), Site, null).Value);
    }

    /// <summary>Common practice, as <see cref="Measured"/> says.</summary>
    [Theory]
    [InlineData(9.4, 6, BatteryState.Fresh)]
    [InlineData(8.1, 6, BatteryState.Serves)]
    [InlineData(7.5, 6, BatteryState.Change)]
    [InlineData(3.1, 2, BatteryState.Fresh)]
    [InlineData(9.0, 4, BatteryState.TooHigh)]
    internal void Batteries_are_judged_by_the_cell(double volts, int cells, BatteryState state) =>
        Assert.Equal(state, Measured.OfBattery(volts, cells));

    [Theory]
    [InlineData(5.2, CoilState.Usual)]
    [InlineData(0.4, CoilState.Shorted)]
    [InlineData(42, CoilState.High)]
    [InlineData(VisitEntry.OpenOhms, CoilState.Open)]
    [InlineData(10.5, CoilState.UnlikeOthers)]
    internal void Coils_are_judged_beside_the_others(double ohms, CoilState state) =>
        Assert.Equal(state, Measured.OfCoil(ohms, [5.0, 5.3, 5.1]));
}
