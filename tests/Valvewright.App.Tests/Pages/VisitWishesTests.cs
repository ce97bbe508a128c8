using NodaTime;
using Valvewright.App.Pages.Year;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Values;
using Valvewright.Records.Jobs;

namespace Valvewright.App.Tests.Pages;

/// <summary>What a person ticks is what the server is asked for, and what cannot be met is told before it is asked.</summary>
public sealed class VisitWishesTests
{
    private static readonly Guid Plan = Guid.CreateVersion7();
    private static readonly LocalDate From = new(2026, 3, 1);

    [Fact]
    public void Nothing_ticked_asks_for_nothing_but_the_visits()
    {
        JobRequest request = new VisitWishes { Visits = 3 }.ToRequest(Plan, From);
        Assert.Equal(new JobRequest("season", Plan, null, 3, new SeasonWishes()), request);
    }

    [Fact]
    public void Months_are_whole_and_February_has_its_leap_day()
    {
        VisitWishes wishes = new();
        wishes.NotIn.Add(2);
        wishes.NotIn.Add(12);
        Assert.Equal(
            [new PeriodOfYear(new AnnualDate(2, 1), new AnnualDate(2, 29)),
                new PeriodOfYear(new AnnualDate(12, 1), new AnnualDate(12, 31))],
            wishes.ToRequest(Plan, From).Wishes!.NotIn!);
    }

    [Fact]
    public void Programs_chosen_anew_name_no_plan_but_a_date()
    {
        JobRequest request = new VisitWishes { WithPrograms = true }.ToRequest(Plan, From);
        Assert.Null(request.Plan);
        Assert.Equal(From, request.From);
    }

    [Fact]
    public void A_shutdown_takes_two_of_the_visits()
    {
        VisitWishes wishes = new() { Visits = 2, HasShutdown = true };
        Assert.Null(wishes.Problem);
        wishes.Agreed.Add(new AnnualDate(5, 1));
        Assert.Equal("year.wrong.agreed", wishes.Problem);
        wishes.Visits = 3;
        Assert.Null(wishes.Problem);
        wishes.On = wishes.Off;
        Assert.Equal("year.wrong.shutdown", wishes.Problem);
    }

    [Fact]
    public void A_date_in_a_month_that_is_barred_is_told()
    {
        VisitWishes wishes = new();
        wishes.Agreed.Add(VisitWishes.DateOf(6, 31));
        Assert.Equal(new AnnualDate(6, 30), wishes.Agreed.Single());
        wishes.NotIn.Add(6);
        Assert.Equal("year.wrong.agreedMonth", wishes.Problem);
    }
}
