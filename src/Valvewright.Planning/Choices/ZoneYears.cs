using System.Numerics;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Planning.Choices;

/// <summary>The training years as one zone feels them, ready to be replayed many times with one depth on given days.</summary>
internal sealed class ZoneYears
{
    private readonly double[][] wanted;
    private readonly double[][] rain;
    private readonly RootZone root;
    private readonly Vector<double>[] share;
    private readonly Vector<double>[] weight;

    public ZoneYears(Zone zone, IReadOnlyList<Climate> training)
    {
        Training = training;
        root = RootZone.Of(zone);
        wanted = [.. training.Select(c => Enumerable.Range(0, c.Days).Select(d => zone.Planting.CoefficientIn(c.DateOf(d).Month) * c.EtoMm[d]).ToArray())];
        rain = [.. training.Select(c => c.RainMm)];
        double reaching = 1 - zone.Emission.ApplicationLossFraction;
        share = Packed(zone.Emission.Spots.Share.Select(s => s * reaching), 1);
        weight = Packed(zone.Emission.Spots.Weight, 0);
        double[] sorted = [.. wanted.SelectMany(w => w).Order()];
        PeakWantedMm = sorted.Length == 0 ? 0 : sorted[(int)(0.95 * (sorted.Length - 1))];
    }

    public IReadOnlyList<Climate> Training { get; }

    /// <summary>What the plants use on a hot day: 95 days in 100 need no more.</summary>
    public double PeakWantedMm { get; }

    public RootZone Root => root;

    /// <summary>Stress of each year when every flagged day is given one gross depth; from field capacity at the start of each year.</summary>
    public double[] StressByYear(double grossMm, IReadOnlyList<bool[]> waterDays)
    {
        double[] stress = new double[wanted.Length];
        Span<Vector<double>> depletion = stackalloc Vector<double>[share.Length];
        Span<Vector<double>> given = stackalloc Vector<double>[share.Length];
        for (int i = 0; i < share.Length; i++)
        {
            given[i] = share[i] * grossMm;
        }

        double span = Math.Max(root.TotalMm - root.ReadilyMm, 1e-9);
        Vector<double> total = new(root.TotalMm), readily = new(root.ReadilyMm), perSpan = new(1 / span);
        for (int year = 0; year < wanted.Length; year++)
        {
            depletion.Clear();
            Vector<double> sum = Vector<double>.Zero;
            double[] use = wanted[year], fell = rain[year];
            bool[] waters = waterDays[year];
            for (int day = 0; day < use.Length; day++)
            {
                Vector<double> dayUse = new(use[day]), dayRain = new(fell[day]);
                for (int i = 0; i < share.Length; i++)
                {
                    Vector<double> before = depletion[i];
                    Vector<double> ks = Vector.Min(Vector<double>.One, (total - before) * perSpan);
                    Vector<double> after = before - dayRain + ks * dayUse;
                    after = waters[day] ? after - given[i] : after;
                    after = Vector.Max(Vector<double>.Zero, Vector.Min(total, after));
                    sum += Vector.Max(Vector<double>.Zero, after - readily) * weight[i];
                    depletion[i] = after;
                }
            }

            stress[year] = Vector.Sum(sum) / span;
        }

        return stress;
    }

    /// <summary>The stress that the given share of years stays within.</summary>
    public double KeptStress(double grossMm, IReadOnlyList<bool[]> waterDays, double shareOfYears)
    {
        double[] stress = StressByYear(grossMm, waterDays);
        Array.Sort(stress);
        return stress[Math.Clamp((int)Math.Ceiling(shareOfYears * stress.Length - 1e-9) - 1, 0, stress.Length - 1)];
    }

    /// <summary>First and last day of each year on which a mean spot that is refilled whenever it gets to its allowed depletion wants water; -1 for none.</summary>
    public IEnumerable<(int First, int Last)> NeedsWaterBetween()
    {
        for (int year = 0; year < wanted.Length; year++)
        {
            int first = -1, last = -1;
            double depletion = 0;
            for (int day = 0; day < wanted[year].Length; day++)
            {
                depletion = Math.Max(0, depletion - rain[year][day] + wanted[year][day]);
                if (depletion > root.ReadilyMm)
                {
                    first = first < 0 ? day : first;
                    last = day;
                    depletion = 0;
                }
            }

            yield return (first, last);
        }
    }

    private static Vector<double>[] Packed(IEnumerable<double> values, double padding)
    {
        double[] padded = [.. values];
        int count = (padded.Length + Vector<double>.Count - 1) / Vector<double>.Count;
        int used = padded.Length;
        Array.Resize(ref padded, count * Vector<double>.Count);
        padded.AsSpan(used).Fill(padding);
        return [.. Enumerable.Range(0, count).Select(i => new Vector<double>(padded, i * Vector<double>.Count))];
    }
}
