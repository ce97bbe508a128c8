using NodaTime;
using Valvewright.Engine.Season;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Tests.Season;

/// <summary>Shutdown and start-up by the years of record.</summary>
public class FrostDatesTests
{
    [Fact]
    public void Dates_fit_nine_years_in_ten()
    {
        // The last frost of spring falls on 1, 2 ... 10 April, the first of autumn on 11, 12 ... 20 October.
        Climate[] years = [.. Enumerable.Range(0, 10).Select(n => Year(
            2001 + (4 * n), new LocalDate(2001, 4, 1 + n), new LocalDate(2001, 10, 11 + n)))];
        FrostDates dates = FrostDates.Of(years)!;
        Assert.Equal((new AnnualDate(4, 10), 9), (dates.StartUp, dates.StartUpYears));
        Assert.Equal((new AnnualDate(10, 11), 9), (dates.ShutDown, dates.ShutDownYears));
        Assert.Equal(10, dates.Years);
    }

    [Fact]
    public void Where_frost_is_rare_no_dates_are_proposed()
    {
        Climate mild = Year(2001, null, null), cold = Year(2005, new LocalDate(2001, 4, 1), new LocalDate(2001, 10, 11));
        Assert.Null(FrostDates.Of([mild, mild, cold]));
        Assert.Null(FrostDates.Of([]));
        Assert.Null(FrostDates.Of([new Climate(new LocalDate(2001, 1, 1), new double[365], new double[365])]));
        Assert.NotNull(FrostDates.Of([cold, cold, cold]));
    }

    [Fact]
    public void South_of_the_equator_the_year_begins_in_July()
    {
        double[] least = [.. Enumerable.Repeat(10.0, 365)];
        (least[60], least[340]) = (-4, -4);
        FrostDates dates = FrostDates.Of([new Climate(new LocalDate(2001, 7, 1), new double[365], new double[365], null, least)])!;
        Assert.Equal(new AnnualDate(8, 31), dates.StartUp);
        Assert.Equal(new AnnualDate(6, 5), dates.ShutDown);
    }

    private static Climate Year(int year, LocalDate? spring, LocalDate? autumn)
    {
        double[] least = [.. Enumerable.Repeat(8.0, 365)];
        foreach (LocalDate frost in new[] { spring, autumn }.OfType<LocalDate>())
        {
            least[frost.DayOfYear - 1] = FrostDates.HardFrostC;
        }

        return new Climate(new LocalDate(year, 1, 1), new double[365], new double[365], null, least);
    }
}
