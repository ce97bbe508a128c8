using NodaTime;
using NodaTime.Text;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Tests.Weather;

/// <summary>
/// Sunrise and sunset against two published sets, both printed to the minute: timeanddate.com for London in 2015, as quoted by tests of
/// the astral library; and P. Schlyter's sunriset program (altitude -0.833) for 2013, as quoted by tests of Astro::Sunrise.
/// </summary>
public sealed class SunTimesTests
{
    private static readonly Place London = new(51.5, -0.1333, 0);
    private static readonly Place Greenwich = new(51 + 28.0 / 60, 0, 0);
    private static readonly Place Reykjavik = new(64 + 4.0 / 60, -(21 + 58.0 / 60), 0);
    private static readonly Place Quito = new(-0.25, -(78 + 35.0 / 60), 0);

    [Theory]
    [InlineData("2015-01-01", "08:06", "16:02")]
    [InlineData("2015-12-01", "07:43", "15:55")]
    [InlineData("2015-12-02", "07:45", "15:54")]
    public void London_times(string date, string rise, string set) => AssertTimes(London, date, rise, set, 0, minutes: 1.1);

    [Theory]
    [InlineData("2013-01-01", "08:05", "16:02")]
    [InlineData("2013-03-21", "06:00", "18:15")]
    [InlineData("2013-06-21", "03:43", "20:21")]
    public void Greenwich_times(string date, string rise, string set) => AssertTimes(Greenwich, date, rise, set, 0, minutes: 1.1);

    [Theory]
    [InlineData("2013-01-01", "10:18", "14:45")]
    [InlineData("2013-03-21", "06:24", "18:46")]
    [InlineData("2013-06-21", "01:57", "23:02")]
    public void Reykjavik_times(string date, string rise, string set) => AssertTimes(Reykjavik, date, rise, set, -1, minutes: 1.5);

    [Theory]
    [InlineData("2013-01-01", "06:14", "18:22")]
    [InlineData("2013-03-21", "06:18", "18:25")]
    public void Quito_times(string date, string rise, string set) => AssertTimes(Quito, date, rise, set, -5, minutes: 1.1);

    [Fact]
    public void Beyond_the_polar_circles_the_sun_may_neither_rise_nor_set()
    {
        SunTimes summer = SunTimes.Of(new(70, 20, 0), new(2015, 6, 21));
        SunTimes winter = SunTimes.Of(new(70, 20, 0), new(2015, 12, 21));
        Assert.Equal(SunCourse.PolarDay, summer.Course);
        Assert.Equal(Duration.FromHours(24), summer.Sunset - summer.Sunrise);
        Assert.Equal(SunCourse.PolarNight, winter.Course);
        Assert.Equal(Duration.Zero, winter.Sunset - winter.Sunrise);
    }

    [Fact]
    public void Without_a_longitude_there_is_no_sunrise() =>
        Assert.Throws<ArgumentException>(() => SunTimes.Of(new(33, double.NaN, 0), new(2015, 6, 21)));

    private static void AssertTimes(Place place, string date, string rise, string set, int utcOffsetHours, double minutes)
    {
        LocalDate day = LocalDatePattern.Iso.Parse(date).Value;
        SunTimes sun = SunTimes.Of(place, day);
        AssertNear(rise, sun.Sunrise);
        AssertNear(set, sun.Sunset);

        void AssertNear(string wanted, Instant got)
        {
            Instant expected = (day + LocalTimePattern.CreateWithInvariantCulture("HH:mm").Parse(wanted).Value)
                .WithOffset(Offset.FromHours(utcOffsetHours)).ToInstant();
            Assert.True(Math.Abs((got - expected).TotalMinutes) <= minutes, $"{date}: {got} rather than {expected}.");
        }
    }
}
