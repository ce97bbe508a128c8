using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Tests.Weather;

/// <summary>
/// Daily Penman-Monteith against what agencies publish for their own stations, over every day that has all inputs measured. The
/// options are those that each agency states or is known to use; the limits hold the rounding of the published column.
/// </summary>
public sealed class AgenciesAgree
{
    private readonly record struct Agreement(int Days, double Bias, double Rmse);

    [Fact]
    public void Zurich_without_a_floor_on_relative_shortwave()
    {
        Agreement a = Compare(ReferenceRecord.Zurich(), EtoOptions.Default with { RelativeShortwaveFloor = 0 });
        AssertWithin(a, fewestDays: 13_000, bias: 0.02, rmse: 0.035);
    }

    [Fact]
    public void Zurich_tells_the_floor_apart()
    {
        Agreement a = Compare(ReferenceRecord.Zurich(), EtoOptions.Default with { RelativeShortwaveFloor = 0.3 });
        Assert.True(a.Rmse > 0.06, $"With the floor the RMSE should be far larger, yet it is {a.Rmse:0.000}.");
    }

    [Fact]
    public void Maricopa_with_vapour_pressure_from_the_dew_point()
    {
        Agreement a = Compare(ReferenceRecord.Maricopa(), EtoOptions.Default);
        AssertWithin(a, fewestDays: 6_000, bias: 0.02, rmse: 0.07);
    }

    [Fact]
    public void Maricopa_tells_the_source_of_vapour_pressure_apart()
    {
        Agreement a = Compare(ReferenceRecord.Maricopa(), EtoOptions.Default with { VapourSources = [VapourSource.HumidityRange] });
        Assert.True(a.Rmse > 0.08, $"From the humidity range the RMSE should be larger, yet it is {a.Rmse:0.000}.");
    }

    [Fact]
    public void Fallon_with_wind_at_3_m()
    {
        Agreement a = Compare(ReferenceRecord.Fallon(), EtoOptions.Default);
        AssertWithin(a, fewestDays: 360, bias: 0.02, rmse: 0.10);
    }

    [Fact]
    public void Fallon_tells_the_wind_height_apart()
    {
        Agreement a = Compare(ReferenceRecord.Fallon(), EtoOptions.Default with { WindHeightM = 2 });
        Assert.True(Math.Abs(a.Bias) > 0.05, $"With the wrong height the bias should show, yet it is {a.Bias:0.000}.");
    }

    private static Agreement Compare(WeatherRecord record, EtoOptions options)
    {
        List<double> errors = [];
        foreach (DailyWeather day in record.Days)
        {
            DailyEto eto = ReferenceEvapotranspiration.Of(day, record.Place, record.WindHeightM, options);
            const EtoMethod Measured = EtoMethod.PenmanMonteith | EtoMethod.RadiationMeasured | EtoMethod.WindMeasured;
            if ((eto.Method & Measured) == Measured && !eto.Method.HasFlag(EtoMethod.VapourFromTmin) && !double.IsNaN(day.PublishedEtoMm))
            {
                errors.Add(eto.EtoMm - day.PublishedEtoMm);
            }
        }

        return new(errors.Count, errors.Average(), Math.Sqrt(errors.Average(e => e * e)));
    }

    private static void AssertWithin(Agreement a, int fewestDays, double bias, double rmse)
    {
        Assert.True(a.Days >= fewestDays, $"Only {a.Days} days compared.");
        Assert.True(Math.Abs(a.Bias) <= bias && a.Rmse <= rmse,
            $"Bias {a.Bias:+0.000;-0.000}, RMSE {a.Rmse:0.000} mm/day over {a.Days} days; allowed {bias} and {rmse}.");
    }
}
