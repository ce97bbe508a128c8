using NodaTime;
using Valvewright.Engine.Weather.Gaps;

namespace Valvewright.Engine.Tests.Weather.Gaps;

/// <summary>Rain that was not measured is that of the same dates in the median year.</summary>
public sealed class RainFillTests
{
    private static readonly LocalDate First = new(2001, 1, 1);

    [Fact]
    public void The_rain_of_the_median_year_comes_with_its_wet_and_dry_days()
    {
        double[] rain = FiveYears();
        SetRain(rain, 2001, 6, [0, 0, 0, 0, 0, 0, 0, 0, 0, 0]);
        SetRain(rain, 2002, 6, [0, 9, 0, 0, 0, 0, 0, 0, 7, 0]);
        SetRain(rain, 2003, 6, [5, 0, 0, 0, 5, 0, 0, 3, 0, 0]);
        SetRain(rain, 2004, 6, [30, 0, 0, 0, 0, 0, 0, 0, 0, 0]);
        SetRain(rain, 2005, 6, Enumerable.Repeat(double.NaN, 10));
        GapCollector gaps = new(First, rain.Length);
        RainFill.Fill(First, rain, gaps);

        // 0, 13, 16 and 30 mm: the drier of the middle two is 2003's.
        Assert.Equal([5, 0, 0, 0, 5, 0, 0, 3, 0, 0], rain.AsSpan(Day(2005, 6, 1), 10).ToArray());
        Assert.Equal([new Gap(WeatherVariable.Rain, new(2005, 6, 1), new(2005, 6, 10), FillMethod.MedianYear)], gaps.Runs());
    }

    [Fact]
    public void A_single_day_is_dry_where_that_day_is_mostly_dry()
    {
        double[] rain = FiveYears();
        rain[Day(2001, 6, 3)] = 40;
        rain[Day(2005, 6, 3)] = double.NaN;
        RainFill.Fill(First, rain, new GapCollector(First, rain.Length));
        Assert.Equal(0, rain[Day(2005, 6, 3)]);
    }

    [Fact]
    public void A_year_that_lacks_the_dates_too_is_no_donor()
    {
        double[] rain = FiveYears();
        for (int year = 2001; year <= 2005; year++)
        {
            SetRain(rain, year, 6, year == 2002 ? [4, 4] : [double.NaN, 1]);
        }

        RainFill.Fill(First, rain, new GapCollector(First, rain.Length));
        Assert.Equal(4, rain[Day(2005, 6, 1)]);
        Assert.Equal(1, rain[Day(2005, 6, 2)]);
    }

    [Fact]
    public void Without_a_donor_there_is_no_rain_and_that_is_said()
    {
        double[] rain = new double[300];
        rain[40] = double.NaN;
        GapCollector gaps = new(First, rain.Length);
        RainFill.Fill(First, rain, gaps);
        Assert.Equal(0, rain[40]);
        Assert.Equal(FillMethod.TakenAsNone, Assert.Single(gaps.Runs()).Method);
    }

    [Fact]
    public void The_leap_day_finds_a_donor()
    {
        double[] rain = FiveYears();
        rain[Day(2004, 2, 29)] = double.NaN;
        rain[Day(2001, 2, 28)] = rain[Day(2002, 2, 28)] = rain[Day(2003, 2, 28)] = 2;
        RainFill.Fill(First, rain, new GapCollector(First, rain.Length));
        Assert.Equal(2, rain[Day(2004, 2, 29)]);
    }

    private static double[] FiveYears() => new double[Day(2005, 12, 31) + 1];

    private static int Day(int year, int month, int day) => Period.DaysBetween(First, new LocalDate(year, month, day));

    private static void SetRain(double[] rain, int year, int month, IEnumerable<double> values)
    {
        int day = Day(year, month, 1);
        foreach (double value in values)
        {
            rain[day++] = value;
        }
    }
}
