using Valvewright.Engine.Hydraulics;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Measured;

/// <summary>Reads a flow test and the pipes behind it.</summary>
internal static class SupplyMeasurements
{
    internal static MeasuredSupply? Read(MapReader map, Site site)
    {
        string supply = MeasuredNames.Supply(map, site);
        FlowTestPoint[] points = [.. map.Maps("flow test").Select(p => new FlowTestPoint(p.Amount("flow"), p.Amount("pressure")))];
        if (points.Length == 0 || points.Any(p => double.IsNaN(p.FlowLpm + p.PressureKpa))) return null;
        SupplyCurve curve;
        try
        {
            curve = new SupplyCurve([.. points]);
        }
        catch (ArgumentException reason)
        {
            map.Findings.Refuse(
                map.Get("flow test")!, "a static pressure and one or more flows, each flow once", Reason.Of(reason).TrimEnd('.'));
            return null;
        }

        return new MeasuredSupply(supply, curve, map.Has("pipes") ? Pipes(map, site, curve)
            : null, SupplyReader.Tank(map), SupplyReader.Pump(map), map.ValueOr("confirmed", false));
    }

    private static ZonePipes? Pipes(MapReader map, Site site, SupplyCurve curve)
    {
        List<(PipeRun Run, double RiseM, MapReader At)> runs =
            [.. map.Maps("pipes").Select((pipe, i) => Pipe(pipe, i)).OfType<(PipeRun, double, MapReader)>()];
        if (runs.Count < map.Items("pipes").Count || runs.Count == 0) return null;
        string enters = map.Text("enters at") ?? runs[0].Run.From;
        Dictionary<string, double> heights = Heights(enters, runs);
        List<SprinklerPoint> sprinklers = [.. map.Maps("sprinklers").Select(s => Sprinkler(s, site, heights)).OfType<SprinklerPoint>()];
        NetworkPoint[] points = [.. heights.Select(h => new NetworkPoint(h.Key, h.Value, Supply: h.Key == enters ? curve : null))];
        ZonePipes pipes = new(new PipeNetwork([.. points], runs.Select(r => r.Run).ToListOf()), sprinklers.ToListOf());
        try
        {
            foreach (StationId zone in pipes.Zones) pipes.Solve([zone]);
        }
        catch (ArgumentException reason)
        {
            map.Findings.Refuse(map.Get("pipes")!, "pipes that lead from the supply to every point",
                AboutPoint(Reason.Of(reason).TrimEnd('.')));
            return null;
        }

        return pipes;
    }

    /// <summary>A sentence about a point in quotes, its name a place of it.</summary>
    private static Sentence AboutPoint(string text)
    {
        (int first, int last) = (text.IndexOf('\'', StringComparison.Ordinal), text.LastIndexOf('\''));
        return first < 0 || last == first ? text
            : new SentenceParts($"{text[..first]}'{{0}}'{text[(last + 1)..]}", [new SentencePlace(Text: text[(first + 1)..last])])
                .ToSentence();
    }

    private static (PipeRun Run, double RiseM, MapReader At)? Pipe(MapReader map, int place)
    {
        (string from, string to) = (map.Text("from") ?? "", map.Text("to") ?? "");
        PipeMaterial material = map.ValueOr("material", PipeMaterial.PvcSchedule40);
        double bore = map.Amount("inside diameter") * 1000;
        if (double.IsNaN(bore))
        {
            string? size = map.Text("size");
            if (size is null)
            {
                map.Findings.Refuse(map.Map, "'size' with 'material', or 'inside diameter'", "A pipe needs a size");
                return null;
            }

            if (PipeTables.InsideDiameterMm(material, size.Replace('-', ' ')) is not { } known)
            {
                map.Findings.Refuse(map.Get("size")!, $"one of: {string.Join(", ", PipeTables.NominalSizes)}; or give 'inside diameter'",
                    "The table has no such size of this material");
                return null;
            }

            bore = known;
        }

        double length = map.Amount("length");
        double rise = map.ValueOr("rise", 0.0);
        double roughness = map.ValueOr("roughness", PipeTables.Roughness(material));
        double loss = map.ValueOr("loss coefficient", 0.0) + map.Values<PipeFitting>("fittings")
            .Sum(f => PipeTables.LossCoefficient(f.Value));
        if (length <= 0) map.Findings.Refuse(map.Get("length")!, "a length above 0", "A pipe has a length");
        bool isWhole = length > 0 && from.Length > 0 && to.Length > 0;
        return isWhole ? (new PipeRun(map.Text("name") ?? $"{from} to {to} ({place + 1})", from, to, length, bore, roughness, loss),
            rise, map) : null;
    }

    /// <summary>Heights above the supply, along the pipes; a loop must close.</summary>
    private static Dictionary<string, double> Heights(string enters, List<(PipeRun Run, double RiseM, MapReader At)> runs)
    {
        const double Closes = 0.1;
        Dictionary<string, double> heights = new(StringComparer.Ordinal) { [enters] = 0 };
        bool grows = true;
        while (grows)
        {
            grows = false;
            foreach ((PipeRun run, double rise, _) in runs)
            {
                if (heights.TryGetValue(run.From, out double from)) grows |= heights.TryAdd(run.To, from + rise);
                else if (heights.TryGetValue(run.To, out double to)) grows |= heights.TryAdd(run.From, to - rise);
            }
        }

        foreach ((PipeRun run, double rise, MapReader at) in runs)
        {
            if (!heights.TryGetValue(run.From, out double from) || !heights.TryGetValue(run.To, out double to))
            {
                at.Findings.Refuse(at.Map, $"a pipe that is connected with '{enters}'", "No pipe leads from the supply to this one");
                heights.TryAdd(run.From, 0);
                heights.TryAdd(run.To, 0);
            }
            else if (Math.Abs(to - from - rise) > Closes)
            {
                at.Findings.Refuse(at.Get("rise") ?? at.Map, $"{to - from:0.##} m, so that the loop closes",
                    "The rises around this loop do not add up to 0");
            }
        }

        return heights;
    }

    private static SprinklerPoint? Sprinkler(MapReader map, Site site, Dictionary<string, double> heights)
    {
        string at = map.Text("at") ?? "";
        string controller = MeasuredNames.Controller(map, site);
        int station = MeasuredNames.Station(map, site, controller);
        if (at.Length > 0 && !heights.ContainsKey(at))
        {
            map.Findings.Refuse(map.Get("at")!, $"one of: {string.Join(", ", heights.Keys)}", "No pipe ends at this point",
                NearestWord.To(at, [.. heights.Keys]));
        }

        (double flow, double pressure, double least, double largest) =
            (map.Amount("flow"), map.Amount("pressure"), map.Amount("least"), map.Amount("largest"));
        if (flow <= 0 || pressure <= 0) map.Findings
            .Refuse(map.Map, "a flow and a pressure above 0", "A sprinkler has a flow at a pressure");
        if (least > largest) map.Findings
            .Refuse(map.Get("least")!, "at most the largest pressure", "The least pressure is above the largest");
        return double.IsNaN(flow + pressure + least + largest) || flow <= 0 || pressure <= 0
            ? null
            : new SprinklerPoint(at, controller, station, new PressureOutlet(flow, pressure, map.ValueOr("exponent", 0.5)), least, largest);
    }
}
