using Valvewright.Engine.Readings.Spoken;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Readings.Rules;

/// <summary>Stations and run times.</summary>
internal sealed partial class Grammar
{
    private const int LargestStation = 48;

    /// <summary>Stations heard.</summary>
    /// <param name="Cost">More where only a number says that a station is meant.</param>
    private sealed record HeardStations(ListOf<int> Stations, int End, double Cost, bool IsNamed);

    private int Stations => hear.Profile?.Stations ?? LargestStation;

    private IEnumerable<Step> Runs(int at, Spot spot)
    {
        foreach (Step step in RunHeadings(at, spot))
        {
            yield return step;
        }

        foreach (HeardStations heard in StationsAt(at, spot))
        {
            int next = Joined(heard.End);
            if (hear.Is(next, Sense.None) || hear.Is(next, Sense.Off))
            {
                yield return Make(at, next + 1, heard.Cost + (heard.IsNamed || spot.Topic == Topic.Runs ? 0 : 1), Topic.Runs,
                    new SaysRun(heard.Stations, 0));
            }

            foreach (HeardLength length in hear.Lengths(next)
                .Where(l => !(hear.IsGlued(next + 1, ":") && hear.IsText(next - 1, "at", "a", "al"))))
            {
                int end = Each(length.End);
                double cost = heard.Cost + length.Cost + (length.HasUnit || heard.IsNamed || hear.IsText(next - 1, "=") ? 0 : 0.15) + Fit(
                    heard.Stations) + Sized(length)
                    + (spot.Topic != Topic.Runs && hear.IsGlued(heard.End, ":") && hear[heard.End + 1]!.Glued ? 2.5 : 0);
                yield return Make(at, end, cost, Topic.Runs, new SaysRun(heard.Stations, length.Seconds), length.Asks);
            }

            if (heard.IsNamed && hear.IsEnd(next) && heard.Stations.Count > 0)
            {
                yield return Make(at, heard.End, 1.5, Topic.Runs, new LeavesOut("a station without a run time"));
            }
        }

        foreach (Step step in Reversed(at, spot))
        {
            yield return step;
        }
    }

    private IEnumerable<Step> RunHeadings(int at, Spot spot)
    {
        // "run times 10, 12 and 8", "tiempos de riego del A: 10, 12, 8"
        int runs = hear.Is(at, Sense.Run) ? hear.Is(at + 1, Sense.Time) ? at + 2 : at + 1
            : hear.Is(at, Sense.Time) && hear.IsText(at + 1, "de") && hear.Is(at + 2, Sense.Run) ? at + 3 : at;
        if (runs > at)
        {
            List<Said> says = [];
            int next = hear.SkipSmall(runs);
            next = hear.Is(next, Sense.Program) ? next + 1 : next;
            if (hear.IsLetter(next))
            {
                says.Add(new OpensProgram(hear[next]!.Typed, false));
                next = hear.SkipSmall(next + 1);
            }

            List<int> seconds = [];
            int end = next;
            while (hear.Lengths(next).FirstOrDefault() is { } length)
            {
                seconds.Add(length.Seconds);
                end = length.End;
                next = hear.SkipSmall(end);
            }

            if (seconds.Count >= 2 && !hear.Times(hear.SkipSmall(runs)).Any(t => t.Form is TimeForm.Clock or TimeForm.Spoken))
            {
                says.Add(new SaysRunsInOrder(seconds.ToListOf()));
                yield return new Step(at, end, 0.3, Topic.Runs, says,
                    [new Question("", "", "Run times without station numbers were taken as stations in order")]);
            }

            if (runs > at + 1 || hear.IsText(at, "runtimes", "runtime", "runs", "durations", "duraciones"))
            {
                yield return Make(at, runs, 0, Topic.Runs);
            }
        }

        if (hear.Is(at, Sense.Station) && hear[at]!.Text.Length > 1)
        {
            yield return Make(at, at + 1, 0.3, Topic.Runs);
        }

        int none = hear.Is(at, Sense.Not) || hear.IsText(at, "none") ? at + 1 : -1;
        none = hear.IsText(none, "tiene", "any", "hay", "has") ? none + 1 : none;
        if (none > 0 && (hear.Is(none, Sense.Station) || (hear.Is(none, Sense.Run) && hear.Is(none + 1, Sense.Time))
            || (hear.Is(none, Sense.Time) && hear.IsText(none + 1, "de") && hear.Is(none + 2, Sense.Run))))
        {
            yield return Make(at, hear.Is(none, Sense.Station) ? none + 1 : hear.Is(none, Sense.Run) ? none + 2 : none + 3, 0, Topic.Runs,
                new SaysNone(Topic.Runs));
        }

        int stations = hear.Is(at, Sense.Station) ? hear.SkipSmall(at + 1) : at;
        if ((stations > at || spot.Topic == Topic.Runs) && hear.Is(stations, Sense.None)
            && hear.IsText(stations, "none", "nothing", "ninguno", "ninguna", "nada", "empty"))
        {
            yield return Make(at, stations + 1, 0, Topic.Runs, new SaysNone(Topic.Runs));
        }
    }

    /// <summary>"10 minutes on station 1", "quince minutos la uno", "five minutes each on all stations".</summary>
    private IEnumerable<Step> Reversed(int at, Spot spot)
    {
        foreach (HeardLength length in hear.Lengths(at))
        {
            int next = Each(length.End), joined = next;
            while (joined - next < 3
                && hear.IsText(joined, "on", "for", "in", "to", "en", "para", "la", "las", "a", "at", "the", "el", "of", "de"))
            {
                joined++;
            }

            foreach (HeardStations heard in StationsAt(joined, spot with { Topic = Topic.Runs }))
            {
                if ((joined > next || (heard.IsNamed && length.HasUnit)) && !hear.Lengths(Joined(heard.End)).Any(l => l.HasUnit))
                {
                    double cost = length.Cost + heard.Cost + Fit(heard.Stations) + Sized(length) + (
                        heard.IsNamed ? 0 : length.HasUnit ? 0.15 : 0.35) + (joined > next ? 0 : 0.3) + (
                            spot.Topic == Topic.Starts && !heard.IsNamed && !length.HasUnit ? 0.5 : 0);
                    yield return Make(at, Each(heard.End), cost, Topic.Runs, new SaysRun(heard.Stations, length.Seconds), length.Asks);
                }
            }
        }
    }

    /// <summary>Every way to hear stations here: numbers, ranges, all, the names of zones.</summary>
    private IEnumerable<HeardStations> StationsAt(int at, Spot spot)
    {
        int first = at;
        while (first - at < 3 && hear.IsText(first, "the", "la", "las", "el", "los", "on", "en", "for", "de", "a", "del", "are", "that's")
            && !hear.IsLetter(first))
        {
            first++;
        }

        bool article = first > at && hear.IsText(first - 1, "la", "las");

        // "all stations", "every station", "las cuatro estaciones", "both stations"
        int all = hear.Is(first, Sense.All) ? first + 1 : first;
        all = hear.IsText(all, "the", "las", "los", "of") ? all + 1 : all;
        all = hear.IsText(all, "the", "las") ? all + 1 : all;
        int? counted = hear.Number(all) is { } n && n.Value == hear.Profile?.Stations && hear.Is(n.End, Sense.Station) ? n.End : null;
        if ((all > first || counted is not null) && hear.Is(counted ?? all, Sense.Station) && hear[counted ?? all]!.Text.Length > 1)
        {
            yield return new HeardStations([], (counted ?? all) + 1, 0, true);
        }

        if (hear.Names.ZoneAt(hear, first) is { } zone)
        {
            yield return new HeardStations([zone.Station], zone.End, 0, true);
        }

        // "the first station"
        if (hear.Ordinal(first) is { } ordinal && hear.Is(ordinal.End, Sense.Station))
        {
            yield return new HeardStations([ordinal.Value], ordinal.End + 1, 0, true);
        }

        bool word = hear.Is(first, Sense.Station) || hear.IsText(first, "#");
        bool plural = word && hear[first]!.Known is "stations" or "estaciones" or "zones" or "zonas" or "valves" or "stas" or "stns";
        bool single = word && hear[first]!.Text.Length == 1 && hear[first]!.Text != "#";
        int number = word ? first + 1 : first;
        number = word && hear.IsText(number, ".", "number", "numero", "#") && !hear.IsEnd(number) | hear.IsText(number, ".")
            ? number + 1 : number;
        while (word && number - first < 4 && hear.IsText(number, "de", "del", "la", "from", "the", "numbers", "las", "numero", "el", "are"))
        {
            number++;
        }

        if (single && !(hear[number] is { Glued: true, Kind: TokenKind.Number }))
        {
            yield break;
        }

        bool allowed = word || spot.Topic == Topic.Runs || spot.HasProgram || article;
        if (!allowed)
        {
            yield break;
        }

        double bare = word ? (spot.Topic == Topic.Starts && hear.IsText(first, "#") ? 0.8 : 0) : spot.Topic == Topic.Runs ? 0.1 : article
            ? 0.4 : spot.Topic == Topic.Starts ? 1.2 : 0.6;
        List<int> stations = [];
        int at1 = number;
        bool joinedByAnd = false;
        while (hear.Number(at1) is { Value: >= 0 and <= LargestStation } next)
        {
            int low = next.Value, end = next.End;
            int to = hear.IsText(end, "a", "al", "to", "through", "thru", "-", "till", "hasta") ? end + 1 : -1;
            to = to > 0 && hear.IsText(to, "la", "station", "estacion") ? to + 1 : to;
            if (to > 0 && hear.Number(to) is { } high && high.Value > low && high.Value <= LargestStation
                && !(hear.IsText(end, "-") && !hear[end]!.Glued && !hear.Lengths(Joined(high.End)).Any()))
            {
                stations.AddRange(Enumerable.Range(low, high.Value - low + 1));
                end = high.End;
                plural = true;
            }
            else
            {
                stations.Add(low);
            }

            if (hear.Names.ZoneAt(hear, hear[end]?.Kind == TokenKind.Pause ? end + 1 : end) is { } name && stations.Contains(name.Station))
            {
                end = name.End;
            }

            // A list of bare numbers could be stations and run times by turns: it is dearer, unless "and" or the plural says that it is
            // one.
            bool rises = stations.Zip(stations.Skip(1)).All(p => p.First < p.Second);
            double list = stations.Count == 1 ? 0 : (plural ? 0.05 : 0.4) + (joinedByAnd ? 0 : 0.15 * stations.Count) + (rises ? 0 : 0.6);
            yield return new HeardStations(
                stations.Distinct().ToListOf(), end, bare + list + (plural && stations.Count == 1 ? 0.2 : 0), word);
            int more = end;
            while (more - end < 2 && (hear.IsText(more, "and", "y", "&", "+", "e") || hear[more]?.Text == ","))
            {
                joinedByAnd |= hear[more]!.Text != ",";
                more++;
            }

            more = hear.IsText(more, "la", "el", "station", "estacion") && more > end ? more + 1 : more;
            if (stations.Count > 12)
            {
                break;
            }

            at1 = more;
        }
    }

    /// <summary>Passes what joins a station to its run time.</summary>
    private int Joined(int at)
    {
        int next = at;
        while (next - at < 5
            && (hear.IsText(next, "=", ":", "-", "for", "is", "gets", "get", "runs", "run", "at", "has", "de", "por", "tiene", "con",
                "riega", "durante", "set", "to", "are", "in", "es", "en", "con", "goes", "on", "with", "corre", "esta", "lleva", ",", "a",
                    "each", "about", "como", "unos", "around", ">", "son", "waters", "maybe", ")", "al")
            && !hear.IsLetter(next)))
        {
            next++;
        }

        return next;
    }

    private int Each(int at) => hear.IsText(at, "each", "apiece") ? at + 1
        : hear.IsText(at, "cada") && hear.IsText(at + 1, "una", "uno") ? at + 2
        : hear.IsText(at, "for", "on") && hear.IsText(at + 1, "each") ? at + 2 : at;

    private double Fit(ListOf<int> stations) => 0.9 * stations.Count(s => s < 1 || s > Stations);

    /// <summary>Run times shorter than three minutes or longer than four hours are rarely meant where no unit is said.</summary>
    private static double Sized(HeardLength length) => length.HasUnit || length.Seconds is 0 or (>= 180 and <= 14_400) ? 0 : 0.4;
}
