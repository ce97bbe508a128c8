using Valvewright.Engine.Readings.Spoken;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Readings;

/// <summary>The names of a site that may be spoken: its controllers, and the zones of the one that is read.</summary>
public sealed class SiteNames
{
    private readonly ListOf<(string Name, ListOf<string> Words)> controllers;
    private readonly ListOf<(int Station, ListOf<string> Words)> zones;

    private SiteNames(IEnumerable<string> controllers, IEnumerable<(int Station, string Name)> zones)
    {
        this.controllers = controllers.Select(c => (c, WordsOf(c))).OrderByDescending(c => c.Item2.Count).ToListOf();
        this.zones = zones.Select(z => (z.Station, WordsOf(z.Name))).ToListOf();
        Known = this.controllers.SelectMany(c => c.Words).Concat(this.zones.SelectMany(z => z.Words)).ToHashSet(StringComparer.Ordinal);
    }

    /// <summary>No names.</summary>
    public static SiteNames None { get; } = new([], []);

    /// <summary>Every word of the names, plain.</summary>
    internal IReadOnlySet<string> Known { get; }

    /// <summary>The names of a site.</summary>
    /// <param name="site">The site.</param>
    /// <param name="controller">The controller whose zones are meant; null for none.</param>
    public static SiteNames Of(Site site, SiteController? controller)
    {
        ArgumentNullException.ThrowIfNull(site);
        return Of(site.Controllers.Select(c => c.Name), controller?.Zones.Select(z => (z.Station, z.Name)) ?? []);
    }

    /// <summary>Names of controllers and of zones by station.</summary>
    public static SiteNames Of(IEnumerable<string> controllers, IEnumerable<(int Station, string Name)> zones) => new(controllers, zones);

    /// <summary>The controller named here; null for none.</summary>
    internal (string Name, int End)? ControllerAt(Hearing hear, int at)
    {
        foreach ((string name, ListOf<string> words) in controllers)
        {
            if (words.Count > 0 && words.Select((w, i) => hear[at + i]?.Text == w).All(same => same)
                && (words.Count > 1 || words[0].Length > 1))
            {
                return (name, at + words.Count);
            }
        }

        return null;
    }

    /// <summary>The zone named here, by all of its name or by words of it that no other zone has together; null for none.</summary>
    internal (int Station, int End)? ZoneAt(Hearing hear, int at)
    {
        int end = at;
        ListOf<(int Station, ListOf<string> Words)> left = zones;
        while (hear[end] is { } token && left.Where(z => z.Words.Contains(token.Text) || z.Words.Contains(token.Text + "s")).ToListOf() is
            { Count: > 0 } fewer)
        {
            left = fewer;
            end++;
        }

        while (end > at && hear[end - 1]!.Text.Length < 3)
        {
            end--;
        }

        bool telling = Enumerable.Range(at, end - at).Any(i => hear[i]!.Text.Length > 3 && !Lexicon.Knows(hear[i]!.Text));
        return left.Count == 1 && end > at && telling ? (left[0].Station, end) : null;
    }

    private static ListOf<string> WordsOf(string name) =>
        Token.Plain(name).Split([' ', ',', '.', '(', ')', '-', '/'], StringSplitOptions.RemoveEmptyEntries).ToListOf();
}
