using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Planning.Hours;

namespace Valvewright.Planning.Tests;

/// <summary>Which programs meet: worked out by hand from the calendar.</summary>
public sealed class DateSetsTests
{
    private static readonly LocalDate First = new(2026, 1, 1);
    private static readonly Profile Plain = TestSites.Profile();

    [Fact]
    public void Odd_and_even_never_meet_on_a_date() =>
        Assert.DoesNotContain(Sets(new OddDays(), new EvenDays()), s => s.Has(0) && s.Has(1));

    [Fact]
    public void An_odd_program_that_passes_midnight_meets_itself_from_the_31st_to_the_1st() =>
        Assert.Contains(DateSets.Of([(new OddDays(), Plain, true)], First), s => s.Has(0) && s.HadYesterday(0));

    [Fact]
    public void An_odd_program_that_skips_the_31st_does_not() =>
        Assert.DoesNotContain(DateSets.Of([(new OddDays(), Plain with { OddSkips31 = true, OddSkips29February = true }, true)], First), s =>
            s.Has(0) && s.HadYesterday(0));

    [Fact]
    public void Weekdays_and_an_interval_of_five_days_meet_sooner_or_later() =>
        Assert.Contains(Sets(new DaysOfWeek([IsoDayOfWeek.Monday]), new EveryNDays(5, First)), s => s.Has(0) && s.Has(1));

    [Fact]
    public void A_weekday_and_an_interval_of_two_weeks_begun_on_another_never_meet() =>
        Assert.DoesNotContain(
            Sets(new DaysOfWeek([IsoDayOfWeek.Monday]), new EveryNDays(14, new LocalDate(2026, 1, 6))), s => s.Has(0) && s.Has(1));

    [Fact]
    public void Intervals_of_two_and_four_days_meet_only_in_step()
    {
        Assert.DoesNotContain(Sets(new EveryNDays(2, First), new EveryNDays(4, First.PlusDays(1))), s => s.Has(0) && s.Has(1));
        Assert.Contains(Sets(new EveryNDays(2, First), new EveryNDays(4, First.PlusDays(2))), s => s.Has(0) && s.Has(1));
    }

    private static List<DateSet> Sets(DayRule one, DayRule other) => DateSets.Of([(one, Plain, false), (other, Plain, false)], First);
}
