using UnitsNet;
using Valvewright.Engine.Quantities;

namespace Valvewright.Engine.Tests.Quantities;

/// <summary>Every factor against the UnitsNet library; none may be missing from the list of checks.</summary>
public sealed class UnitsAgreeWithUnitsNet
{
    private static readonly Dictionary<string, double> Theirs = new()
    {
        ["m"] = Length.FromMeters(1).Meters,
        ["mm"] = Length.FromMillimeters(1).Meters,
        ["cm"] = Length.FromCentimeters(1).Meters,
        ["km"] = Length.FromKilometers(1).Meters,
        ["in"] = Length.FromInches(1).Meters,
        ["ft"] = Length.FromFeet(1).Meters,
        ["yd"] = Length.FromYards(1).Meters,
        ["m2"] = Area.FromSquareMeters(1).SquareMeters,
        ["cm2"] = Area.FromSquareCentimeters(1).SquareMeters,
        ["sq in"] = Area.FromSquareInches(1).SquareMeters,
        ["sq ft"] = Area.FromSquareFeet(1).SquareMeters,
        ["sq yd"] = Area.FromSquareYards(1).SquareMeters,
        ["ha"] = Area.FromHectares(1).SquareMeters,
        ["ac"] = Area.FromAcres(1).SquareMeters,
        ["mL"] = Volume.FromMilliliters(1).Liters,
        ["L"] = Volume.FromLiters(1).Liters,
        ["gal"] = Volume.FromUsGallons(1).Liters,
        ["fl oz"] = Volume.FromUsOunces(1).Liters,
        ["m3"] = Volume.FromCubicMeters(1).Liters,
        ["L/min"] = VolumeFlow.FromLitersPerMinute(1).LitersPerMinute,
        ["L/h"] = VolumeFlow.FromLitersPerHour(1).LitersPerMinute,
        ["L/s"] = VolumeFlow.FromLitersPerSecond(1).LitersPerMinute,
        ["gpm"] = VolumeFlow.FromUsGallonsPerMinute(1).LitersPerMinute,
        ["gph"] = VolumeFlow.FromUsGallonsPerHour(1).LitersPerMinute,
        ["m3/h"] = VolumeFlow.FromCubicMetersPerHour(1).LitersPerMinute,
        ["kPa"] = Pressure.FromKilopascals(1).Kilopascals,
        ["MPa"] = Pressure.FromMegapascals(1).Kilopascals,
        ["bar"] = Pressure.FromBars(1).Kilopascals,
        ["psi"] = Pressure.FromPoundsForcePerSquareInch(1).Kilopascals,
        ["mm/h"] = Speed.FromMillimetersPerHour(1).MillimetersPerHour,
        ["cm/h"] = Speed.FromCentimetersPerHour(1).MillimetersPerHour,
        ["in/h"] = Speed.FromInchesPerHour(1).MillimetersPerHour,
        ["m/s"] = Speed.FromMetersPerSecond(1).MetersPerSecond,
        ["km/h"] = Speed.FromKilometersPerHour(1).MetersPerSecond,
        ["mph"] = Speed.FromMilesPerHour(1).MetersPerSecond,
        ["s"] = Duration.FromSeconds(1).Seconds,
        ["min"] = Duration.FromMinutes(1).Seconds,
        ["h"] = Duration.FromHours(1).Seconds,
        ["d"] = Duration.FromDays(1).Seconds,
        ["%"] = Ratio.FromPercent(1).Percent,
    };

    public static TheoryData<string> Symbols() => [.. Units.All.Select(unit => unit.Symbol)];

    [Theory]
    [MemberData(nameof(Symbols))]
    public void The_factor_is_theirs(string symbol)
    {
        Unit unit = Units.All.Single(u => u.Symbol == symbol);
        Assert.True(Theirs.ContainsKey(symbol), $"Add '{symbol}' to the checks.");
        // UnitsNet takes the acre as the US survey acre and some factors to seven digits.
        double tolerance = symbol == "ac" ? 5e-6 : 1e-7;
        Assert.InRange(unit.Factor / Theirs[symbol], 1 - tolerance, 1 + tolerance);
    }

    [Fact]
    public void Exact_factors_are_exact()
    {
        // NIST SP 811 (2008) appendix B.8 and B.9.
        Assert.Equal(3.785411784, Units.GallonPerMinute.Factor, 12);
        Assert.Equal(6.894757, Units.Psi.Factor, 6);
        Assert.Equal(0.09290304, Units.SquareFoot.Factor, 15);
        Assert.Equal(4046.856, Units.Named("acre")!.Factor, 2);
    }

    [Fact]
    public void No_spelling_means_two_units_and_each_symbol_reads_as_itself()
    {
        string[] spellings = [.. Units.All.SelectMany(unit => unit.Spellings)];
        Assert.Equal(spellings.Length, spellings.Distinct().Count());
        Assert.All(Units.All, unit => Assert.Same(unit, Units.Named(unit.Symbol)));
        Assert.All(spellings, spelling => Assert.NotNull(Units.Named(spelling)));
    }
}
