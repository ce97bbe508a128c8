using System.Globalization;
using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof.Rules;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Surveys;
using Valvewright.Planning;
using Valvewright.Planning.Changes;
using Valvewright.Tests.Worsened;

namespace Valvewright.Bench;

/// <summary>Programs of the demo sites worsened at random: what two changed settings recover of what a plan from nothing saves.</summary>
internal static class FoundBenchmark
{
    private const int MostSettings = 5;

    /// <summary>Usage: found [cases of each site] [demo folder ...].</summary>
    public static int Run(string[] args)
    {
        int cases = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 10;
        string[] folders = args.Length > 1 ? args[1..] : [.. Directory.GetDirectories("demo").Order(StringComparer.Ordinal)];
        List<(int Settings, double One, double Two, bool Broken)> all = [];
        foreach (string folder in folders)
        {
            Site site = SurveyFiles.Read(folder).Site!;
            BuiltClimate built = ClimateBuilder.Build(SiteWeather.Read(site).Record!);
            ListOf<Climate> training = [.. built.Split(site.Place.LatitudeDeg).Training.Select(y => y.Of(built.Climate))];
            LocalDate from = new(2026, 4, 1);
            if (Planner.Plan(site, training, new PlannerOptions { InForceFrom = from, PercentOn = (_, _) => 100 }).Plan is not { } made)
            {
                Console.WriteLine($"{site.Name}: no plan");
                continue;
            }

            Plan plan = made with { Controllers = made.Controllers.Select(c => c with { Visits = [] }).ToListOf() };
            List<(int Settings, double One, double Two, bool Broken)> own = [];
            for (int seed = 1; own.Count < cases && seed < 5 * cases; seed++)
            {
                int settings = 1 + (seed % MostSettings);
                ProgramChanges search = ChangeSearch.Of(site, WorsenedPrograms.Of(site, plan, seed, settings), plan, training, from, 2);
                double saved = search.Found.CostLitres - search.Replanned!.CostLitres;
                if (saved < 0.02 * search.Replanned.CostLitres)
                {
                    continue;
                }

                double Recovered(int changes) => search.Within(changes) is { } some ? (search.Found.CostLitres - some.CostLitres) / saved
                    : 0;
                bool broken = search.Steps.Any(s => SiteRules.Breaches(site, s.Plan, from, from.PlusYears(4).PlusDays(-1)).Count > 0);
                own.Add((settings, Recovered(1), Recovered(2), broken));
            }

            Say(site.Name, own);
            all.AddRange(own);
        }

        Say("All sites", all);
        foreach (IGrouping<int, (int Settings, double One, double Two, bool Broken)> group in all.GroupBy(c => c.Settings)
            .OrderBy(g => g.Key))
        {
            Say($"  {group.Key} settings worsened", [.. group]);
        }

        return 0;
    }

    private static void Say(string name, List<(int Settings, double One, double Two, bool Broken)> cases)
    {
        if (cases.Count > 0)
        {
            double[] two = [.. cases.Select(c => c.Two).Order()];
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{name}: {cases.Count} cases; 1 change recovers 90 % in {cases.Count(c => c.One >= 0.9)}, ")
                + string.Create(
                CultureInfo.InvariantCulture,
                $"2 in {cases.Count(c => c.Two >= 0.9)} (median {100 * two[two.Length / 2]:0} %); ")
                + $"rules broken in {cases.Count(c => c.Broken)}");
        }
    }
}
