using Valvewright.Engine.Quantities;

namespace Valvewright.Engine.Tests.Quantities;

public sealed class QuantityTextTests
{
    [Theory]
    [InlineData("3/4 in", Dimension.Length, 0.01905)]
    [InlineData("1 1/2 in", Dimension.Length, 0.0381)]
    [InlineData("1-1/2 in.", Dimension.Length, 0.0381)]
    [InlineData("3/4\"", Dimension.Length, 0.01905)]
    [InlineData("12 ft", Dimension.Length, 3.6576)]
    [InlineData("40 psi", Dimension.Pressure, 275.79029)]
    [InlineData("2.5 bar", Dimension.Pressure, 250)]
    [InlineData("12 l/min", Dimension.Flow, 12)]
    [InlineData("12L/min", Dimension.Flow, 12)]
    [InlineData("10 GPM", Dimension.Flow, 37.85411784)]
    [InlineData("1,200 sq ft", Dimension.Area, 111.483648)]
    [InlineData("1,234,567.5 m2", Dimension.Area, 1_234_567.5)]
    [InlineData("1.234.567,5 m2", Dimension.Area, 1_234_567.5)]
    [InlineData("1,5 m", Dimension.Length, 1.5)]
    [InlineData("0,125 m", Dimension.Length, 0.125)]
    [InlineData("1,2345 m", Dimension.Length, 1.2345)]
    [InlineData("  80  Sq.  Ft. ", Dimension.Area, 7.4322432)]
    [InlineData("-10 m", Dimension.Length, -10)]
    [InlineData("\u221210 m", Dimension.Length, -10)]
    [InlineData("65 %", Dimension.Share, 65)]
    [InlineData("65%", Dimension.Share, 65)]
    [InlineData("1.5 in/h", Dimension.Rate, 38.1)]
    [InlineData("90 min", Dimension.Duration, 5400)]
    [InlineData("1.2e3 mm", Dimension.Length, 1.2)]
    [InlineData(".5 h", Dimension.Duration, 1800)]
    public void A_quantity_is_read_in_the_unit_it_is_written_in(string text, Dimension dimension, double expected)
    {
        QuantityReading reading = QuantityText.Read(text, dimension, Units.Of(dimension).First());
        Assert.Null(reading.Problem);
        Assert.Equal(expected, reading.Value, Math.Abs(expected) * 1e-8);
    }

    [Fact]
    public void A_plain_number_has_the_usual_unit()
    {
        Assert.Equal(25.4, QuantityText.Read("1", Dimension.Rate, Units.InchPerHour).Value, 12);
        Assert.Equal(1, QuantityText.Read("1", Dimension.Rate, Units.MillimetrePerHour).Value);
    }

    [Theory]
    [InlineData("40 psi", Dimension.Flow, "measures pressure, not flow")]
    [InlineData("40 pis", Dimension.Pressure, "'pis' is not a unit known here")]
    [InlineData("12,34,567 m", Dimension.Length, "commas")]
    [InlineData("1,5,2 m", Dimension.Length, "commas")]
    [InlineData("NaN", Dimension.Length, "number")]
    [InlineData("-infinity", Dimension.Length, "number")]
    [InlineData("1e999 m", Dimension.Length, "large")]
    [InlineData("", Dimension.Length, "number")]
    [InlineData("in", Dimension.Length, "number")]
    [InlineData("1/0 in", Dimension.Length, "number")]
    [InlineData("1/2/3 in", Dimension.Length, "number")]
    [InlineData("1..5 m", Dimension.Length, "number")]
    [InlineData("--1 m", Dimension.Length, "number")]
    [InlineData("0x10 m", Dimension.Length, "not a unit")]
    [InlineData("1 2 m", Dimension.Length, "number")]
    public void What_is_no_quantity_is_refused_with_its_reason(string text, Dimension dimension, string reason)
    {
        QuantityReading reading = QuantityText.Read(text, dimension, Units.Of(dimension).First());
        Assert.False(reading.IsRead);
        Assert.True(double.IsNaN(reading.Value));
        Assert.Contains(reason, reading.Problem, StringComparison.Ordinal);
    }
}
