using NodaTime;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Plants;

/// <summary>The landscape coefficient of a planting on every day of a climate: its months, its dormancy, its overseeding.</summary>
/// <remarks>
/// Warm-season turf stops growing at 12.5 to 13.2 degrees C (clipping yield of bermuda and zoysia; Flournoy 2017, Mississippi State
/// thesis). It counts as dormant from the day the mean of ten days falls under 13, until the mean of ten days is above 16. Dormant cover
/// keeps 0.25 (rule of thumb: dead leaf over soil).
/// </remarks>
public static class Growth
{
    /// <summary>Coefficient of dormant turf.</summary>
    public const double DormantCoefficient = 0.25;

    /// <summary>Coefficient of a cool-season grass sown over dormant turf.</summary>
    public const double OverseededCoefficient = 0.8;

    private const int Days = 10;
    private const double DormantBelowC = 13;
    private const double GreenAboveC = 16;

    /// <summary>KL by day of the climate.</summary>
    public static double[] CoefficientsOf(Planting planting, Climate climate)
    {
        ArgumentNullException.ThrowIfNull(planting);
        ArgumentNullException.ThrowIfNull(climate);
        double[] coefficients = new double[climate.Days];
        double[]? mean = planting.Turf == TurfSeason.Warm && planting.DormantDates is null && planting.Stage != PlantStage.NewlySeeded
            ? climate.MeanC : null;
        bool dormant = false;
        double sum = 0;
        int known = 0;
        for (int day = 0; day < coefficients.Length; day++)
        {
            LocalDate date = climate.DateOf(day);
            if (mean is not null)
            {
                Count(mean[day], 1);
                Count(day >= Days ? mean[day - Days] : double.NaN, -1);
                dormant = known == 0 ? dormant : dormant ? sum / known <= GreenAboveC : sum / known < DormantBelowC;
            }

            bool asleep = planting.DormantDates?.Contains(date) ?? dormant;
            coefficients[day] = planting.OverseededDates?.Contains(date) == true ? OverseededCoefficient
                : asleep ? Math.Min(DormantCoefficient, planting.CoefficientIn(date.Month))
                : planting.CoefficientIn(date.Month);
        }

        return coefficients;

        void Count(double degrees, int sign)
        {
            if (!double.IsNaN(degrees))
            {
                sum += sign * degrees;
                known += sign;
            }
        }
    }
}
