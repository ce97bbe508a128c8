using System.Globalization;
using System.Text.Json;
using Valvewright.Engine.Ground;
using Valvewright.Tests;

namespace Valvewright.Engine.Tests.Ground;

/// <summary>Saxton and Rawls (2006), table 3 at 2.5 % organic matter, to the precision printed (reference/fao56-checks.csv, rows
/// SR06).</summary>
public sealed class SaxtonRawlsTests
{
    public static TheoryData<string, double, double, double, string, double, double> Printed()
    {
        TheoryData<string, double, double, double, string, double, double> data = [];
        foreach (string line in File.ReadLines(Path.Combine(Checkout.Root, "reference", "fao56-checks.csv"))
            .Where(line => line.StartsWith("SR06-", StringComparison.Ordinal)))
        {
            int open = line.IndexOf('{', StringComparison.Ordinal);
            int close = line.IndexOf('}', StringComparison.Ordinal);
            using JsonDocument inputs = JsonDocument.Parse(line[open..(close + 1)].Replace("\"\"", "\"", StringComparison.Ordinal));
            double Input(string name) => inputs.RootElement.GetProperty(name).GetDouble();
            string[] rest = line[(close + 3)..].Split(',');
            data.Add(
                line.Split(',')[0], Input("sand"), Input("clay"), Input("OM_percent"), line.Split(',')[0].Split('-')[2],
                double.Parse(rest[0], CultureInfo.InvariantCulture), double.Parse(rest[2], CultureInfo.InvariantCulture));
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Printed))]
    public void Table_3_is_reproduced(
        string row, double sand, double clay, double organic, string property, double printed, double tolerance)
    {
        SaxtonRawls soil = new(sand, clay, organic);
        double value = property switch
        {
            "WP" => 100 * soil.WiltingPoint,
            "FC" => 100 * soil.FieldCapacity,
            "SAT" => 100 * soil.Saturation,
            _ => soil.SaturatedConductivityMmPerHour,
        };
        Assert.True(Math.Abs(value - printed) <= tolerance, $"{row}: {value} against {printed} printed");
    }

    [Fact]
    public void All_thirty_two_printed_values_are_checked() => Assert.Equal(32, Printed().Count);

    [Fact]
    public void A_soil_from_shares_takes_intake_from_its_texture_class_and_water_from_the_equations()
    {
        Soil soil = SaxtonRawls.At(0.30, 0.35, 2.5, slopePercent: 8);
        Soil table = SoilTextures.At("clay loam", 8);
        Assert.Equal("clay loam", soil.Texture);
        Assert.Equal(table.IntakeMmPerHour, soil.IntakeMmPerHour);
        Assert.Equal(table.SurfaceStorageMm, soil.SurfaceStorageMm);
        Assert.Equal(140, soil.AvailableWaterMmPerM, 1.0); // 36 % less 22 %, printed to whole percents
    }

    [Fact]
    public void More_than_a_whole_soil_is_refused() => Assert.Throws<ArgumentOutOfRangeException>(() => new SaxtonRawls(0.7, 0.4, 2));
}
