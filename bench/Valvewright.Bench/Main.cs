namespace Valvewright.Bench;

/// <summary>Usage: dotnet run -c Release --project bench/Valvewright.Bench -- benchmark [options]</summary>
internal static class EntryPoint
{
    private static readonly Dictionary<string, (string What, Func<string[], int> Run)> Benchmarks = new()
    {
        ["eto"] = ("reference evapotranspiration, station-days a second, beside plain C", EtoBenchmark.Run),
        ["balance"] = ("root-zone balance, lane-days per second, next to plain C", BalanceBenchmark.Run),
        ["emulator"] = ("a year of a controller, beside the slow twin of the tests", EmulatorBenchmark.Run),
        ["check"] = ("labelled slips named by the check, sound readings blamed", CheckBenchmark.Run),
        ["power-cut"] = ("a server killed with signal 9 while it writes: what is lost", ServingBenchmark.PowerCut),
        ["database-cut"] = ("PostgreSQL killed while it is written to: what is lost", ServingBenchmark.DatabaseCut),
        ["silo-cut"] = ("a server, its workers and PostgreSQL killed in the middle of work: what is lost", ServingBenchmark.SiloCut),
        ["advice-scale"] = ("the advice of a night for many sites, with 1, 2 and 4 programs", AdviceScaleBenchmark.Run),
        ["crowd"] = ("twenty who write at once: what is lost", ServingBenchmark.Crowded),
        ["page"] = ("the page over the wire, and a card opened without a signal, beside an empty page", PageBenchmark.Run),
        ["pictures"] = ("no benchmark: pictures of every page into a folder, for docs/page.md", PagePictures.Run),
        ["seen"] = ("from what was seen to the setting: the slip first, among the first three", SeenBenchmark.Run),
        ["auditor"] = ("plans of 1, 2, 4 and 12 visits next to minimum, auditor's schedule and MAWA, on years not seen",
            AuditorBenchmark.Run),
        ["season-size"] = ("the season of a dozen controllers over fifteen years and more: seconds", SeasonSizeBenchmark.Run),
        ["trace"] = ("faults of simulated cases found, beside a fixed checklist and the exhaustive order", TraceBenchmark.Run),
        ["found"] = ("programs of the demo sites worsened at random: what two changed settings recover", FoundBenchmark.Run),
        ["words"] = ("reading ease of docs and screens, of this tree or of the folder named", WordsFigures.Run),
        ["rounds"] = ("forty visits for three people: seconds, and above the best known", RoundsBenchmark.Run),
        ["planner"] = ("time to a proven plan, beside a time-indexed formulation of the same model", PlannerBenchmark.Run),
    };

    private static int Main(string[] arguments)
    {
        if (arguments.Length > 0 && Benchmarks.TryGetValue(arguments[0], out (string What, Func<string[], int> Run) chosen))
        {
            Console.WriteLine(Machine.Describe());
            return chosen.Run(arguments[1..]);
        }

        Console.Error.WriteLine(arguments.Length == 0 ? "Name a benchmark:" : $"No benchmark is named '{arguments[0]}'. There are:");
        foreach ((string name, (string what, _)) in Benchmarks)
        {
            Console.Error.WriteLine($"  {name,-8}  {what}");
        }

        return 2;
    }
}
