using System.Globalization;
using Valvewright.Engine.Weather;
using Valvewright.Engine.Weather.Gaps;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather;

/// <summary>What must hold of any daily weather, whatever layout it came in.</summary>
internal static class DayChecks
{
    /// <summary>From this share of days on, a lowest temperature above the highest means that the columns are swapped.</summary>
    private const double ShareThatMeansSwapped = 0.25;

    public static void Run(ReadingJob job)
    {
        ArgumentNullException.ThrowIfNull(job);
        TemperatureOrder(job);
        HumidityInPercent(job);
        ClampHumidity(job);
        if (job.HasProblems)
        {
            return;
        }

        bool temperatures = job.Days.Has(Quantity.TmaxC) && job.Days.Has(Quantity.TminC);
        if (!temperatures && !job.Days.Has(Quantity.PublishedEtoMm))
        {
            job.Problem(
                0, 0, "", "highest and lowest temperature of each day, or published ETo",
                "the file holds neither temperatures nor published ETo");
        }
        else if (!job.Days.Has(Quantity.RainMm))
        {
            job.Warn("The file holds no rain.");
        }
    }

    private static void TemperatureOrder(ReadingJob job)
    {
        int both = 0;
        List<int> wrong = [];
        for (int row = 0; row < job.Days.Count; row++)
        {
            double highest = job.Days.Get(row, Quantity.TmaxC);
            double lowest = job.Days.Get(row, Quantity.TminC);
            both += double.IsNaN(highest) || double.IsNaN(lowest) ? 0 : 1;
            if (lowest > highest)
            {
                wrong.Add(row);
            }
        }

        if (wrong.Count == 0)
        {
            return;
        }

        if (wrong.Count > both * ShareThatMeansSwapped)
        {
            int first = wrong[0];
            job.Problem(
                0, 0,
                    $"{job.Days.Get(first, Quantity.TminC):0.#} above {job.Days.Get(first, Quantity.TmaxC):0.#} °C on {job.Days.DateOf(first):uuuu-MM-dd}",
                "lowest below highest temperature",
                $"on {wrong.Count} of {both} days the lowest temperature is above the highest; are the columns swapped?");
            return;
        }

        foreach (int row in wrong)
        {
            job.Days.Set(row, Quantity.TmaxC, double.NaN);
            job.Days.Set(row, Quantity.TminC, double.NaN);
        }

        job.Warn($"Temperatures of {wrong.Count} days left out: lowest above highest (first on {job.Days.DateOf(wrong[0]):uuuu-MM-dd}).");
    }

    private static void HumidityInPercent(ReadingJob job)
    {
        ListOf<DailyWeather> days = job.Days.Days();
        if (!WholeRecord.HasHumidityAsFraction(days))
        {
            return;
        }

        double highest = days.SelectMany(d => new[] { d.RhMaxPercent, d.RhMeanPercent, d.RhMinPercent }).Where(h => !double.IsNaN(h)).Max();
        job.Problem(
            0, 0, $"{highest.ToString("0.###", CultureInfo.InvariantCulture)}",
                "percent, as 93; or the unit of the humidity columns declared as fraction",
            $"relative humidity never passes {WholeRecord.HighestFraction} on {days.Count} days: it is written as a fraction, and as percent it would be drier than any desert");
    }

    private static void ClampHumidity(ReadingJob job)
    {
        int clamped = 0;
        foreach (Quantity humidity in new[] { Quantity.RhMaxPercent, Quantity.RhMinPercent, Quantity.RhMeanPercent })
        {
            for (int row = 0; row < job.Days.Count; row++)
            {
                if (job.Days.Get(row, humidity) > 100)
                {
                    job.Days.Set(row, humidity, 100);
                    clamped++;
                }
            }
        }

        if (clamped > 0)
        {
            job.Assumed($"{clamped} readings of relative humidity between 100 and 105% taken as 100%.");
        }
    }
}
