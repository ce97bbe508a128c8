using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Cards;

namespace Valvewright.Files.Tests.Cards;

/// <summary>What a card says.</summary>
public sealed class CardContentTests
{
    [Fact]
    public void Totals_are_what_a_person_gets_by_adding_up()
    {
        (Site site, Plan plan) = CardSites.Typical();
        ProgramTotals a = CardContent.Of(site, plan, "North gate", CardSites.Day).Programs[0].Totals;
        Assert.Equal(50 * 60, a.RunSeconds);
        Assert.Equal(2, a.Starts);
        Assert.Equal(100 * 60, a.DaySeconds);
        Assert.Equal((6 * 60 + 20) * 60, a.LastCloses);
        Assert.Equal(12 * 12 + 20 * 30 + 18 * 28, a.RunLitres, 9);
        Assert.Equal(a.RunLitres * 2 * 3, a.WeekLitres, 9);
        ProgramTotals b = CardContent.Of(site, plan, "North gate", CardSites.Day).Programs[1].Totals;
        Assert.Equal(b.RunLitres * 7 / 9, b.WeekLitres, 9);
    }

    [Fact]
    public void A_card_can_be_written_as_json_and_read_back_equal()
    {
        (Site site, Plan plan) = CardSites.Largest();
        CardContent card = CardContent.Of(site, plan, "Upper terraces", CardSites.Day);
        Assert.Equal(card, Json.Read<CardContent>(Json.Write(card)));
    }

    [Theory]
    [InlineData("America/Denver", false, ClockKind.StandardTime, 1)]
    [InlineData("America/Denver", true, ClockKind.ChangesByItself, 1)]
    [InlineData("America/Phoenix", false, ClockKind.NoChange, 0)]
    [InlineData("Australia/Adelaide", false, ClockKind.StandardTime, 0)]
    [InlineData("Europe/Dublin", false, ClockKind.StandardTime, 1)]
    public void The_clock_step_follows_the_zone(string zone, bool byItself, ClockKind kind, int hoursNow)
    {
        ClockStep step = ClockStep
            .Of(DateTimeZoneProviders.Tzdb[zone], CardSites.Profile(1, 1, 1) with { ClockKnowsDaylightSaving = byItself }, CardSites.Day);
        Assert.Equal(kind, step.Kind);
        Assert.Equal(Offset.FromHours(hoursNow), step.Now);
    }

    [Theory]
    [InlineData(2026, 1, 1, 0)]
    [InlineData(2026, 4, 15, 60)]
    [InlineData(2026, 7, 1, 100)]
    [InlineData(2026, 12, 31, 0)]
    public void The_percent_is_that_of_the_last_visit(int year, int month, int day, int percent)
    {
        (Site site, Plan plan) = CardSites.Typical();
        Assert.Equal(percent, CardContent.Of(site, plan, "North gate", new LocalDate(year, month, day)).PercentNow);
    }

    [Fact]
    public void The_next_dates_pass_from_off_to_the_first_percent()
    {
        (Site site, Plan plan) = CardSites.Typical();
        CardContent card = CardContent.Of(site, plan, "North gate", new LocalDate(2026, 4, 1));
        Assert.Equal(new LocalDate(2026, 4, 15), card.NextDays[0].Date);
        Assert.Equal(60, card.NextDays[0].Percent);
        Assert.Equal(new LocalTime(5, 30).PlusMinutes(30), card.NextDays[0].Programs[0].Closes.TimeOfDay);
    }

    [Fact]
    public void A_winter_off_leaves_as_many_next_dates_as_summer()
    {
        (Site site, Plan plan) = CardSites.Typical();
        Assert.Equal(8, CardContent.Of(site, plan, "North gate", new LocalDate(2026, 10, 20)).NextDays.Count);
    }

    [Fact]
    public void Every_next_date_is_a_water_day_and_none_between_is_left_out()
    {
        (Site site, Plan plan) = CardSites.Typical();
        SiteController device = site.Controllers[0];
        CardContent card = CardContent.Of(site, plan, "North gate", CardSites.Day);
        LocalDate last = card.NextDays[^1].Date;
        for (LocalDate date = CardSites.Day; date <= last; date = date.PlusDays(1))
        {
            char[] expected = [.. plan.Controllers[0].Settings.Programs.Where(p => p.Days!.WatersOn(date, device.Profile))
                .Select(p => p.Letter)];
            char[] shown = [.. card.NextDays.Where(d => d.Date == date).SelectMany(d => d.Programs).Select(p => p.Letter)];
            Assert.Equal(expected, shown);
        }
    }

    [Fact]
    public void A_controller_that_is_not_there_is_said_to_be_so()
    {
        (Site site, Plan plan) = CardSites.Typical();
        Assert.Contains("South gate", Assert.Throws<KeyNotFoundException>(
            () => CardContent.Of(site, plan, "South gate", CardSites.Day)).Message, StringComparison.Ordinal);
    }
}
