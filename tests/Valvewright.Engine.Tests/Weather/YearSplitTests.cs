using NodaTime;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Tests.Weather;

/// <summary>Which years a plan is made with and which it is proven on.</summary>
public sealed class YearSplitTests
{
    [Fact]
    public void Every_third_year_counted_from_the_last_is_held_back()
    {
        YearSplit split = YearSplit.Of(Days(new(2010, 1, 1), new(2018, 12, 31)), 40);
        Assert.Equal(["2012", "2015", "2018"], split.HeldBack.Select(y => y.Name));
        Assert.Equal(["2010", "2011", "2013", "2014", "2016", "2017"], split.Training.Select(y => y.Name));
        Assert.True(split.IsUnseen);
    }

    [Fact]
    public void Part_years_at_either_end_are_left_out()
    {
        YearSplit split = YearSplit.Of(Days(new(2010, 1, 2), new(2014, 12, 30)), 40);
        Assert.Equal(["2011", "2012", "2013"], split.Training.Concat(split.HeldBack).Select(y => y.Name).Order());
    }

    [Fact]
    public void South_of_the_equator_a_year_holds_a_whole_summer()
    {
        YearSplit split = YearSplit.Of(Days(new(2010, 1, 1), new(2014, 12, 31)), -34);
        Assert.Equal(["2010/11", "2011/12", "2012/13", "2013/14"], split.Training.Concat(split.HeldBack).Select(y => y.Name).Order());
        Assert.Equal(new YearSpan(new(2012, 7, 1), new(2013, 6, 30)), split.HeldBack.Single());
        Assert.Equal(366, new YearSpan(new(2011, 7, 1), new(2012, 6, 30)).Of(Days(new(2010, 1, 1), new(2014, 12, 31))).Days);
    }

    [Theory]
    [InlineData("2010-01-01", "2011-12-31", 2)]
    [InlineData("2010-01-01", "2010-12-31", 1)]
    [InlineData("2010-03-01", "2010-09-30", 1)]
    public void A_short_record_serves_both_purposes_and_says_so(string from, string to, int years)
    {
        YearSplit split = YearSplit.Of(Days(Date(from), Date(to)), 40);
        Assert.Equal(years, split.Training.Count);
        Assert.Equal(split.Training, split.HeldBack);
        Assert.False(split.IsUnseen);
        Assert.Contains("same days", split.Explanation, StringComparison.Ordinal);
    }

    [Fact]
    public void A_year_that_is_no_witness_counts_as_absent()
    {
        YearSplit split = YearSplit.Of(Days(new(2010, 1, 1), new(2013, 12, 31)), 40, y => y.From.Year != 2013);
        Assert.Equal(["2011"], split.HeldBack.Select(y => y.Name));
    }

    [Fact]
    public void When_no_year_is_a_witness_all_are_heard_and_that_is_said()
    {
        YearSplit split = YearSplit.Of(Days(new(2010, 1, 1), new(2013, 12, 31)), 40, _ => false);
        Assert.Equal(4, split.Training.Count + split.HeldBack.Count);
        Assert.Contains("largely filled", split.Explanation, StringComparison.Ordinal);
    }

    [Fact]
    public void Only_the_latest_thirty_years_count()
    {
        YearSplit split = YearSplit.Of(Days(new(1890, 1, 1), new(2021, 12, 31)), 40);
        Assert.Equal(20, split.Training.Count);
        Assert.Equal(10, split.HeldBack.Count);
        Assert.Equal("1992", split.Training.Concat(split.HeldBack).Min(y => y.Name));
    }

    private static LocalDate Date(string text) => NodaTime.Text.LocalDatePattern.Iso.Parse(text).Value;

    private static Climate Days(LocalDate from, LocalDate to)
    {
        int days = Period.DaysBetween(from, to) + 1;
        return new(from, new double[days], new double[days]);
    }
}
