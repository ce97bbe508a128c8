using Valvewright.Files.Problems;
using Valvewright.Files.Weather.Text;

namespace Valvewright.Files.Weather;

/// <summary>The stations that a file holds, and which of them is read: the only one, or the one the person names.</summary>
internal sealed class StationChoice
{
    private const int StationsShown = 12;
    private const int LongestName = 80;
    private readonly Dictionary<string, (string Name, int Line)> stations = [];

    /// <summary>Looks through a table for its stations, and settles on one; null after a problem.</summary>
    /// <param name="job">The reading.</param>
    /// <param name="header">The table, at its header.</param>
    /// <param name="stationField">The column of ids.</param>
    /// <param name="nameField">The column of names; less than 0 where there is none.</param>
    /// <param name="skips">Rows that are remarks.</param>
    public static string? Of(ReadingJob job, DelimitedText header, int stationField, int nameField, Func<DelimitedText, bool>? skips = null)
    {
        StationChoice choice = new();
        DelimitedText rows = header.FromHere();
        while (rows.Next())
        {
            if (rows[stationField].Length > 0 && skips?.Invoke(rows) != true)
            {
                choice.Add(rows[stationField], nameField < 0 ? [] : rows[nameField], rows.Line);
            }
        }

        if (choice.Count == 0)
        {
            job.Problem(header.Line + 1, 0, "", "rows of weather", "the table has a header and no rows");
            return null;
        }

        return choice.Settle(job);
    }

    /// <summary>How many different stations.</summary>
    public int Count => stations.Count;

    public void Add(ReadOnlySpan<char> id, ReadOnlySpan<char> name, int line)
    {
        if (!stations.GetAlternateLookup<ReadOnlySpan<char>>().ContainsKey(id))
        {
            stations.Add(id.ToString(), (name.Length > LongestName ? name[..LongestName].ToString() : name.ToString(), line));
        }
    }

    /// <summary>The id to read; null after a problem.</summary>
    public string? Settle(ReadingJob job)
    {
        if (job.Options.Station is { } wanted)
        {
            foreach ((string id, (string name, int _)) in stations)
            {
                if (id.Equals(wanted, StringComparison.OrdinalIgnoreCase) || name.Equals(wanted, StringComparison.OrdinalIgnoreCase))
                {
                    return Take(job, id);
                }
            }

            IEnumerable<string> words = stations.SelectMany(s => new[] { s.Key, s.Value.Name });
            job.Problem(0, 0, wanted, Listed(), "the file does not hold this station", NearestWord.To(wanted, words));
            return null;
        }

        if (stations.Count == 1)
        {
            return Take(job, stations.Keys.First());
        }

        if (stations.Count > 1)
        {
            (string id, (string name, int line)) = stations.ElementAt(1);
            job.Problem(line, 1, Shown(id, name), $"one station: {Listed()}",
                $"the file holds {stations.Count} stations; say which one to read");
        }

        return null;
    }

    private string Take(ReadingJob job, string id)
    {
        string name = stations[id].Name;
        job.Station = Shown(id, name);
        if (stations.Count > 1)
        {
            job.Found($"The file holds {stations.Count} stations; read is {Shown(id, name)}.");
        }

        return id;
    }

    private static string Shown(string id, string name) => name.Length == 0 || name == id ? id : $"{id} {name}";

    private string Listed() =>
        string.Join("; ", stations.Take(StationsShown).Select(s => Shown(s.Key, s.Value.Name))) + (
            stations.Count > StationsShown ? "; ..." : "");
}
