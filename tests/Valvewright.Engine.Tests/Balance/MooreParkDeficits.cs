using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Weather;
using Valvewright.Tests;

namespace Valvewright.Engine.Tests.Balance;

/// <summary>
/// Published soil moisture deficits of Moore Park, Ireland (Met Eireann, CC BY 4.0), well drained class, from the published rain and PE.
/// </summary>
/// <remarks>
/// The model (Schulte and others 2005, Irish Journal of Agricultural and Food Research 44; parameters not checked against the paper): use
/// falls in a straight line from PE at no deficit to nothing at 110 mm. In FAO-56 terms TAW 110 mm and RAW 0: the same code, other
/// parameters.
/// </remarks>
public sealed class MooreParkDeficits
{
    private static readonly RootZone WellDrained = new(110, 0);

    /// <summary>
    /// Fifteen years on end. The record lacks 30 June 2011 and 6 to 13 July 2022; their rain is not known, so each stretch between starts
    /// at its first published deficit.
    /// </summary>
    [Fact]
    public void Free_running_deficits_agree_to_a_tenth_of_a_millimetre()
    {
        double squares = 0;
        int compared = 0;
        List<(Climate Climate, double[] PublishedMm)> stretches = Read();
        Assert.Equal(3, stretches.Count);
        foreach ((Climate climate, double[] published) in stretches)
        {
            SpotStore store = new(WellDrained, published[0]);
            for (int day = 1; day < published.Length; day++)
            {
                store.Step(climate.RainMm[day], climate.EtoMm[day]);
                squares += Math.Pow(store.DepletionMm - published[day], 2);
                compared++;
            }
        }

        Assert.True(compared > 5400, $"{compared} days");
        Assert.InRange(Math.Sqrt(squares / compared), 0.001, 0.1);
    }

    /// <summary>Stretches of dates without a gap.</summary>
    private static List<(Climate Climate, double[] PublishedMm)> Read()
    {
        string[] lines = File.ReadAllLines(
            Path.Combine(Checkout.Root, "reference", "weather", "meteireann_575_moorepark_soil-moisture-deficit.csv"));
        Assert.Equal("date,rain_mm,pe_mm,smd_well_drained_mm,smd_moderately_drained_mm,smd_poorly_drained_mm", lines[0]);
        List<List<string[]>> stretches = [];
        LocalDate before = LocalDate.MinIsoValue;
        foreach (string[] row in lines.Skip(1).Select(l => l.Split(',')))
        {
            LocalDate date = LocalDatePattern.Iso.Parse(row[0]).Value;
            if (stretches.Count == 0 || date != before.PlusDays(1))
            {
                stretches.Add([]);
            }

            stretches[^1].Add(row);
            before = date;
        }

        return [.. stretches.Select(
            rows => (new Climate(LocalDatePattern.Iso.Parse(rows[0][0]).Value, Column(rows, 2), Column(rows, 1)), Column(rows, 3)))];
    }

    private static double[] Column(List<string[]> rows, int column) =>
        [.. rows.Select(r => double.Parse(r[column], CultureInfo.InvariantCulture))];
}
