using System.Diagnostics;
using System.Globalization;
using System.Text;
using NodaTime;
using NodaTime.Text;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;
using Valvewright.Records;
using Valvewright.Server.Jobs;
using Valvewright.Server.Nights;
using Valvewright.Store;
using Valvewright.Tests;
using Valvewright.Tests.Databases;
using Valvewright.Tests.Serving;

namespace Valvewright.Bench;

/// <summary>The advice of a night for an organization that is made up: what a core does in an hour, and what more programs
/// bring.</summary>
internal static class AdviceScaleBenchmark
{
    private const int ControllersOfASite = 5;
    private static readonly string[] Soils = ["sandy loam", "loam", "clay loam"];
    private static readonly Stamp Made = new("bench", SystemClock.Instance.GetCurrentInstant());

    /// <summary>Options: --sites 200 --seed 1.</summary>
    public static int Run(string[] arguments)
    {
        int sites = ServingBenchmark.Number(arguments, "--sites", 200);
        using PostgresCluster cluster = new();
        string place = cluster.Database();
        using SiteStore store = SiteStore.Open(place);
        Stopwatch watch = Stopwatch.StartNew();
        Fill(store, sites, new Random(ServingBenchmark.Number(arguments, "--seed", 1)));
        Console.WriteLine($"{sites} sites, {sites * ControllersOfASite} controllers made in {watch.Elapsed.TotalSeconds:0} s");
        Console.WriteLine("programs   seconds   controllers/h   controllers/h and core   MB a program");
        foreach (int programs in new[] { 1, 2, 4 })
        {
            Measure(cluster, place, store, programs, sites).GetAwaiter().GetResult();
        }

        return store.Advice().All(a => a.Value.Contains("\"missing\":null", StringComparison.Ordinal)) ? 0 : 1;
    }

    private static async Task Measure(PostgresCluster cluster, string place, SiteStore store, int programs, int sites)
    {
        using (Npgsql.NpgsqlConnection connection = cluster.Open(place.Split('/')[3].Split('?')[0]))
        using (Npgsql.NpgsqlCommand command = connection.CreateCommand())
        {
            command.CommandText = "DELETE FROM \"Advice\"";
            command.ExecuteNonQuery();
        }

        List<ServerProcess> workers = [];
        await using WorkSilo silo = await WorkSilo.StartAsync(store);
        try
        {
            for (int i = 1; i < programs; i++)
            {
                workers.Add(await ServerProcess.StartWork(place));
            }

            TimeSpan Used() => workers.Aggregate(Process.GetCurrentProcess().TotalProcessorTime, (sum, w) => sum + w.ProcessorTime);
            TimeSpan before = Used();
            Stopwatch watch = Stopwatch.StartNew();
            int looked = await silo.Grains.GetGrain<INightGrain>(0).Look();
            double hours = watch.Elapsed.TotalHours, coreHours = (Used() - before).TotalHours;
            int controllers = looked * ControllersOfASite;
            double memory = workers.Select(w => w.MemoryMb).Append(Process.GetCurrentProcess().WorkingSet64 / 1e6).Average();
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{programs,8}{watch.Elapsed.TotalSeconds,10:0.0}{controllers / hours,16:0}{controllers / coreHours,25:0}{memory,15:0}"));
            if (looked != sites)
            {
                Console.WriteLine($"  {looked} of {sites} sites: the others had been looked at before the watch was started");
            }
        }
        finally
        {
            workers.ForEach(w => w.Dispose());
        }
    }

    /// <summary>Sites that differ in soil, area and rate, with a plan of four visits each and one weather record for all.</summary>
    private static void Fill(SiteStore store, int sites, Random random)
    {
        byte[] weather = Weather();
        for (int s = 0; s < sites; s++)
        {
            Guid id = Ids.New();
            StringBuilder survey = new($$"""
                site: Site {{s + 1}}
                location: { latitude: 38.298, longitude: 48.847, elevation: 720 m }
                time zone: Asia/Baku
                units: metric
                clock: 24 hours
                soil: {{Soils[random.Next(Soils.Length)]}}
                slope: 2 %
                supplies:
                  - name: Main
                    flow: 60 l/min
                    pressure: 300 kPa
                weather:
                  file: weather.csv
                  station: { latitude: 38.298, longitude: 48.847, elevation: 720 m }
                  wind height: 2 m
                controllers:

                """);
            for (int c = 1; c <= ControllersOfASite; c++)
            {
                survey.Append(CultureInfo.InvariantCulture, $$"""
                      - name: C{{c}}
                        profile: 4 stations, 2 programs, 4 starts
                        supply: Main
                        zones:
                          - station: 1
                            name: Lawn {{c}}
                            area: {{random.Next(30, 120)}} m2
                            plants: cool-season turf
                            sprinklers: { kind: spray, rate: {{random.Next(20, 40)}} mm/h, uniformity: 60 % }

                    """);
            }

            string text = survey.ToString();
            Site site = SurveyFiles.ParseApart(text, "survey").Site!;
            string digest = SavedPlan.DigestOf(site);
            store.PutSite(id, new SiteValue(site.Name, text, digest), null, Made);
            store.Put(id, Ids.WeatherOf(id), new WeatherValue("weather.csv", SiteStore.DigestOf(weather), weather.Length), null, Made,
                weather);
            LocalDate from = new(2026, 1, 1);
            Plan plan = new(site.Name, site.Controllers.Select(c => new ControllerPlan(
                c.Name, new Settings([new('A', [new LocalTime(5, 0)], [new(1, 300 + (60 * random.Next(10)))], new EveryNDays(2, from))]),
                [new(new AnnualDate(3, 20), 50), new(new AnnualDate(5, 20), 100), new(new AnnualDate(9, 10), 60),
                    new(new AnnualDate(12, 10), 0)])).ToListOf());
            store.Put(id, Ids.New(), new PlanValue(digest, from, PlanFiles.Write(SavedPlan.Of(site, plan, from))), null, Made);
        }
    }

    /// <summary>Ten years of record, and a year so far that is the last one over again.</summary>
    private static byte[] Weather()
    {
        string[] lines = File.ReadAllLines(Path.Combine(Checkout.Root, "reference", "weather", "nasapower_lankaran-hills.csv"));
        LocalDate yesterday = SystemClock.Instance.GetCurrentInstant().InUtc().Date.PlusDays(-1);
        IEnumerable<string> record = lines.Skip(1).Where(l => string.CompareOrdinal(l, "2016") > 0 && string.CompareOrdinal(l, "2026") < 0);
        IEnumerable<string> soFar = lines.Where(l => l.StartsWith("2025-", StringComparison.Ordinal)).Select(l => "2026" + l[4..])
            .Where(l => LocalDatePattern.Iso.Parse(l[..10]).Value <= yesterday);
        return Encoding.UTF8.GetBytes(string.Join('\n', [lines[0], .. record, .. soFar]) + "\n");
    }
}
