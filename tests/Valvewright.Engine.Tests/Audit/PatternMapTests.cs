using Valvewright.Engine.Audit;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Audit;

public sealed class PatternMapTests
{
    private static readonly ListOf<CanPlace> Grid = Enumerable.Range(0, 24)
        .Select(i => new CanPlace(3.0 * (i % 6), 3.0 * (i / 6))).ToListOf();

    [Fact]
    public void The_surface_goes_through_every_can()
    {
        ListOf<double> shares = Grid.Select((_, i) => 0.6 + (0.03 * (i * 7 % 24))).ToListOf();
        PatternMap map = new(Grid, shares);
        for (int i = 0; i < Grid.Count; i++) Assert.Equal(shares[i], map.ShareAt(Grid[i].XM, Grid[i].YM), 1e-9);
    }

    /// <summary>A plane is its own smoothest surface, so its contours are straight and where they should be.</summary>
    [Fact]
    public void Contours_of_a_slope_are_straight_lines()
    {
        PatternMap map = new(Grid, Grid.Select(p => 0.5 + (p.XM / 15)).ToListOf());
        Assert.Equal(1, map.ShareAt(7.5, 4), 1e-9);
        ListOf<ContourLine> lines = map.Contours([1.03], 10);
        Assert.Equal(10, lines.Count);
        Assert.All(lines, line => Assert.Equal((7.95, 7.95), (Math.Round(line.From.XM, 6), Math.Round(line.To.XM, 6))));
    }

    [Fact]
    public void Cans_on_a_line_or_in_one_place_make_no_pattern()
    {
        Assert.Throws<ArgumentException>(() => new PatternMap([new(0, 0), new(1, 0), new(2, 0), new(3, 0)], [1.0, 1, 1, 1]));
        Assert.Throws<ArgumentException>(() => new PatternMap([new(0, 0), new(0, 0), new(2, 0), new(3, 1)], [1.0, 1, 1, 1]));
        Assert.Throws<ArgumentException>(() => new PatternMap([new(0, 0), new(1, 0)], [1.0, 1]));
    }
}
