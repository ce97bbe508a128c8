using Valvewright.Engine.Ground;

namespace Valvewright.Engine.Tests.Ground;

public sealed class SoilTexturesTests
{
    /// <summary>UC Davis, inches of available water per foot, by texture group; the same soils the table has.</summary>
    [Theory]
    [InlineData("sand", .40, .75)]
    [InlineData("loamy sand", .75, 1.25)]
    [InlineData("sandy loam", 1.25, 1.75)]
    [InlineData("loam", 1.50, 2.30)]
    [InlineData("clay loam", 1.75, 2.50)]
    [InlineData("silty clay", 1.60, 2.50)]
    [InlineData("clay", 1.60, 2.50)]
    public void Available_water_lies_within_the_range_that_UC_Davis_gives(string texture, double least, double largest)
    {
        double inchesPerFoot = SoilTextures.At(texture, 0).AvailableWaterMmPerM * 12 / 1000;
        Assert.InRange(inchesPerFoot, least, largest + 1e-9);
    }

    [Fact]
    public void Finer_soil_takes_water_in_more_slowly_and_holds_less_on_its_surface()
    {
        Soil[] soils = [.. SoilTextures.Classes.Select(texture => SoilTextures.At(texture, 5))];
        Assert.Equal(soils.OrderBy(soil => soil.IntakeMmPerHour), soils);
        Assert.Equal(soils.OrderBy(soil => soil.SurfaceStorageMm), soils);
    }

    /// <summary>Rows of the intake table in trade-facts.md (from memory there), in inches.</summary>
    [Theory]
    [InlineData("clay", 2, .10, .20)]
    [InlineData("clay loam", 4, .20, .22)]
    [InlineData("loam", 12, .35, .21)]
    [InlineData("sand", 13, .60, .25)]
    [InlineData("sandy loam", 3.5, .40, .29)]
    public void The_table_is_read_in_inches(string texture, double slope, double intake, double surface)
    {
        Soil soil = SoilTextures.At(texture, slope);
        Assert.Equal(intake * 25.4, soil.IntakeMmPerHour, 9);
        Assert.Equal(surface * 25.4, soil.SurfaceStorageMm, 9);
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(3, 0)]
    [InlineData(3.5, 1)]
    [InlineData(6, 1)]
    [InlineData(12, 2)]
    [InlineData(12.5, 3)]
    [InlineData(40, 3)]
    public void A_slope_between_two_classes_falls_in_the_steeper(double slope, int expected) =>
        Assert.Equal(expected, SoilTextures.SlopeClass(slope));

    [Fact]
    public void Every_class_of_the_triangle_has_numbers()
    {
        for (int sand = 0; sand <= 100; sand++)
        {
            for (int clay = 0; clay <= 100 - sand; clay++)
            {
                string texture = TextureTriangle.ClassOf(sand / 100.0, clay / 100.0);
                Assert.True(SoilTextures.At(texture, 0).AvailableWaterMmPerM > 0);
            }
        }
    }

    /// <summary>The representative soils of Saxton and Rawls (2006), table 3, and corners of the USDA triangle.</summary>
    [Theory]
    [InlineData(.88, .05, "sand")]
    [InlineData(.80, .05, "loamy sand")]
    [InlineData(.65, .10, "sandy loam")]
    [InlineData(.40, .20, "loam")]
    [InlineData(.20, .15, "silt loam")]
    [InlineData(.10, .05, "silt")]
    [InlineData(.60, .25, "sandy clay loam")]
    [InlineData(.30, .35, "clay loam")]
    [InlineData(.10, .35, "silty clay loam")]
    [InlineData(.10, .45, "silty clay")]
    [InlineData(.50, .40, "sandy clay")]
    [InlineData(.25, .50, "clay")]
    public void The_triangle_names_each_class(double sand, double clay, string expected) =>
        Assert.Equal(expected, TextureTriangle.ClassOf(sand, clay));
}
