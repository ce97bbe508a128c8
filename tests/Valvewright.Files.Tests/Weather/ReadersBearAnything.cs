using System.Text;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;

namespace Valvewright.Files.Tests.Weather;

/// <summary>
/// Random damage done to real samples, with fixed seeds: 10 000 inputs for each of sixteen samples. Each ends with a reading or with
/// located problems; none with an exception, none slowly, none with much memory.
/// </summary>
public sealed class ReadersBearAnything
{
    private const int InputsPerSample = 10_000;
    private const long MostBytesPerInput = 64L * 1024 * 1024;

    /// <summary>An input takes some 50 microseconds; a machine busy with other work may hold a thread up for long.</summary>

    private static readonly (string File, int Bytes)[] Bases =
    [
        ("azmet_06_maricopa.csv", 1500),
        ("noaa_seattle_2012-2015_vega.csv", 1500),
        ("formats/ghcnd_dly_ottawa_2015-2017.dly", 1614),
        ("formats/ghcnd_cdo_csv_sitka_2021.csv", 2000),
        ("formats/ghcnd_long_csv_death-valley_2021_rewritten.csv", 1800),
        ("formats/nasapower_daily_csv_header+mo-dy_kwh_2000.csv", 3500),
        ("formats/nasapower_daily_ascii_athens_2022.txt", 3100),
        ("formats/nasapower_daily_json_2020-12_real.json", 1400),
        ("formats/openmeteo_forecast_daily_us-units_2025.json", 3000),
        ("formats/cimis_daily_csv_metric_fivepoints_2021.csv", 2500),
    ];

    /// <summary>Layouts that no file of the folder has: real days written the way their agency publishes them.</summary>
    private static readonly (string Name, Func<string> Text)[] Written =
    [
        ("MeteoSwiss", () => AsPublished.MeteoSwiss(AsPublished.Days("meteoswiss_REH.csv", 14000, 25))),
        ("KNMI", () => AsPublished.Knmi(AsPublished.Days("knmi_260_debilt.csv", 9000, 15))),
        ("Met Eireann", () => AsPublished.MetEireann(AsPublished.Days("meteireann_575_moorepark.csv", 6000, 15))),
        ("AZMET", () => AsPublished.Azmet(AsPublished.Days("azmet_06_maricopa.csv", 1000, 15))),
        ("AgriMet", () => AsPublished.AgriMet(AsPublished.Days("agrimet_FALN_fallon.csv", 0, 20))),
        ("EPW", () => EnergyPlusWeatherTests.TwoDays()),
    ];

    public static TheoryData<int> Seeds => [.. Enumerable.Range(0, Bases.Length + Written.Length)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Every_damaged_sample_ends_with_a_reading_or_with_located_problems(int sample)
    {
        Random random = new(20_260 + sample);
        byte[][] bases = [.. Bases.Select(entry => Head(entry.File, entry.Bytes)),
            .. Written.Select(entry => Encoding.UTF8.GetBytes(entry.Text()))];
        string[] names = [.. Bases.Select(entry => entry.File), .. Written.Select(entry => entry.Name)];
        int read = 0;
        for (int input = 0; input < InputsPerSample; input++)
        {
            byte[] bytes = Damage.Done(bases[sample], bases[random.Next(bases.Length)], random);
            WeatherReadOptions options = random.Next(8) == 0
                ? new WeatherReadOptions { Layout = (WeatherLayout)random.Next(Enum.GetValues<WeatherLayout>().Length),
                    Station = random.Next(2) == 0 ? "2" : null }
                : new WeatherReadOptions { Units = Valvewright.Engine.Survey.UnitSystem.Metric };
            read += Check(bytes, options, $"sample {names[sample]}, input {input}") ? 1 : 0;
        }

        // Neither has all the damage been harmless, nor has the sample been beyond reading from the start.
        Assert.InRange(read, names[sample].Contains("_real", StringComparison.Ordinal)
            || names[sample].Contains("cimis", StringComparison.Ordinal) ? 0 : 20, InputsPerSample - 1000);
    }

    private static bool Check(byte[] bytes, WeatherReadOptions options, string which)
    {
        long before = GC.GetAllocatedBytesForCurrentThread();
        WeatherReading reading;
        try
        {
            reading = WeatherFiles.ReadBytes("damaged", bytes, options);
        }
        catch (Exception e)
        {
            throw new InvalidOperationException(
                $"{which}: {e.GetType().Name}: {e.Message}\n{e.StackTrace}\n{Encoding.Latin1.GetString(bytes)}", e);
        }

        Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < MostBytesPerInput,
            $"{which}: {GC.GetAllocatedBytesForCurrentThread() - before} bytes\n{Encoding.Latin1.GetString(bytes)}");
        if (reading.Ok)
        {
            Assert.True(reading.Record.Days.Count > 0 && reading.Problems.Count == 0, which);
        }
        else
        {
            Assert.NotEmpty(reading.Problems);
            foreach (Problem problem in reading.Problems)
            {
                Assert.True(problem.Message.Text.Length > 0 && problem.File == "damaged" && problem.Line >= 0 && problem.Column >= 0
                    && problem.ToString().Length < 2000, which);
            }
        }

        return reading.Ok;
    }

    /// <summary>The first lines of a file, or the whole of a small one.</summary>
    private static byte[] Head(string file, int bytes)
    {
        byte[] all = File.ReadAllBytes(Samples.PathOf(file));
        if (all.Length <= bytes || file.EndsWith(".json", StringComparison.Ordinal))
        {
            return all;
        }

        int end = Array.LastIndexOf(all, (byte)'\n', bytes);
        return all[..(end + 1)];
    }
}
