using Valvewright.Bench;

// Usage: dotnet run -c Release --project bench/Valvewright.Bench -- <benchmark> [options]
Dictionary<string, (string What, Func<string[], int> Run)> benchmarks = new()
{
    ["eto"] = ("reference evapotranspiration, station-days a second, beside plain C", EtoBenchmark.Run),
    ["balance"] = ("root-zone balance, spot-days a second, beside plain C", BalanceBenchmark.Run),
};

if (args.Length > 0 && benchmarks.TryGetValue(args[0], out (string What, Func<string[], int> Run) chosen))
{
    Console.WriteLine(Machine.Describe());
    return chosen.Run(args[1..]);
}

Console.Error.WriteLine(args.Length == 0 ? "Name a benchmark:" : $"No benchmark is named '{args[0]}'. There are:");
foreach ((string name, (string what, _)) in benchmarks)
{
    Console.Error.WriteLine($"  {name,-8}  {what}");
}

return 2;
