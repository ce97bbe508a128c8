using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Valvewright.Tests;

namespace Valvewright.Bench;

/// <summary>How long the command takes for the season of a site of a dozen controllers over more than fifteen years: start, proof and
/// writing included.</summary>
/// <remarks>The demo site Millrace Trail under the longest series of the reference folder, planned once without visits; then its
/// season.</remarks>
internal static partial class SeasonSizeBenchmark
{
    private const string Series = "nasapower_lankaran-hills.csv";

    public static int Run(string[] args)
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("valvewright-season-");
        try
        {
            string survey = File.ReadAllText(Path.Combine(Checkout.Root, "demo", "millrace-trail", "site.yaml"));
            string series = Path.Combine(Checkout.Root, "reference", "weather", Series);
            File.WriteAllText(Path.Combine(folder.FullName, "site.yaml"),
                WeatherFile().Replace(survey, $"file: {series.Replace("$", "$$", StringComparison.Ordinal)}", 1));
            Console.WriteLine($"{Environment.ProcessorCount} cores");
            Say("plan, no visits", Command("plan", folder.FullName, "--visits", "0"));
            Say("season", Command("season", folder.FullName));
            return 0;
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [GeneratedRegex(@"file: \S+\.csv")]
    private static partial Regex WeatherFile();

    private static void Say(string what, (double Wall, double Processor, JsonElement Answer) took)
    {
        string season = took.Answer.TryGetProperty("season", out JsonElement found) && found.ValueKind == JsonValueKind.Object
            ? string.Create(CultureInfo.InvariantCulture,
                $"; cost {found.GetProperty("costLitres").GetDouble() / 1000:0.0} m3, bound {found.GetProperty("boundLitres").GetDouble() / 1000:0.0} m3")
            : "";
        Console.WriteLine(string
            .Create(CultureInfo.InvariantCulture, $"{what,-24}{took.Wall,7:0.0} s, {took.Processor:0.0} s of processor time{season}"));
    }

    private static (double Wall, double Processor, JsonElement Answer) Command(string job, string site, params string[] more)
    {
        Stopwatch watch = Stopwatch.StartNew();
        ProcessStartInfo start = new("dotnet", [Path.Combine(AppContext.BaseDirectory, "valvewright.dll"), job, site, .. more, "--json"])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.Environment["VALVEWRIGHT_HOME"] = Checkout.Root;
        using Process run = Process.Start(start)!;
        Task<string> errors = run.StandardError.ReadToEndAsync(), answered = run.StandardOutput.ReadToEndAsync();
        TimeSpan processor = TimeSpan.Zero;
        while (!run.WaitForExit(10))
        {
            processor = ProcessorTime(run) ?? processor;
        }

        double wall = watch.Elapsed.TotalSeconds;
        string answer = answered.Result;
        return answer.Length > 0
            ? (wall, processor.TotalSeconds, JsonDocument.Parse(answer).RootElement)
            : throw new InvalidOperationException($"'{job}' gave no answer: {errors.Result}");
    }

    /// <summary>A process that has ended does not tell it any more; the last time asked, it is short of it by hundredths of a
    /// second.</summary>
    private static TimeSpan? ProcessorTime(Process run)
    {
        try
        {
            run.Refresh();
            return run.TotalProcessorTime;
        }
        catch (InvalidOperationException)
        {
            return null;
        }
    }
}
