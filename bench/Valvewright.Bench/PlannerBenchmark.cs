using System.Diagnostics;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Surveys;
using Valvewright.Planning;

namespace Valvewright.Bench;

/// <summary>Time to a proven plan of each demo site.</summary>
internal static class PlannerBenchmark
{
    /// <summary>Plans the named demo folders, or all; with <c>--race</c>, start times beside the straightforward formulation.</summary>
    public static int Run(string[] args)
    {
        bool race = args.Contains("--race");
        args = [.. args.Where(a => a != "--race")];
        string[] folders = args.Length > 0 ? args : [.. Directory.GetDirectories("demo").Order(StringComparer.Ordinal)];
        foreach (string folder in folders)
        {
            SurveyReading reading = SurveyFiles.Read(folder);
            if (reading.Site is not { } site)
            {
                Console.Error.WriteLine($"{folder} cannot be read.");
                return 1;
            }

            BuiltClimate built = ClimateBuilder.Build(SiteWeather.Read(site).Record!);
            ListOf<Climate> training = [.. built.Split(site.Place.LatitudeDeg).Training.Select(y => y.Of(built.Climate))];
            if (race)
            {
                PlannerRace.Run(site, training);
                continue;
            }

            Stopwatch watch = Stopwatch.StartNew();
            PlanResult result = Planner.Plan(site, training, progress: new Said(watch));
            Console.WriteLine(
                $"{site.Name}: {result.Report.Status}, gap {100 * result.Report.Gap:0.00} %, {watch.Elapsed.TotalSeconds:0.0} s (processor {Process.GetCurrentProcess().TotalProcessorTime.TotalSeconds:0.0} s), solver effort {result.Report.EffortSeconds:0.00}, {result.Report.Programs} program trials");
            foreach (AimReached level in result.Report.Levels)
            {
                Console.WriteLine($"  {level.Aim}: {level.Value:0.##} (bound {level.Bound:0.##}) {level.Unit}");
            }

            foreach (Obstacle obstacle in result.Obstacles)
            {
                Console.WriteLine($"  {obstacle.What}");
                foreach (SiteChange change in obstacle.Advice)
                {
                    Console.WriteLine($"    {change.Size:0.0}  {change.What}");
                }
            }
        }

        return 0;
    }

    private sealed class Said(Stopwatch watch) : IProgress<PlanProgress>
    {
        public void Report(PlanProgress value) =>
            Console.WriteLine($"  {watch.Elapsed.TotalSeconds,5:0.0} s  {value.Supply}: {value.Step}");
    }
}
