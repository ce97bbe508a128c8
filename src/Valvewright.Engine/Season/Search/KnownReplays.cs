using System.Collections.Concurrent;

namespace Valvewright.Engine.Season.Search;

/// <summary>What a zone's years came to under settings that have been tried already: moves try the same ones again and again.</summary>
/// <remarks>A replay does not depend on the company that it was made in, so that it does not matter who asked first.</remarks>
internal sealed class KnownReplays(int years)
{
    /// <summary>Replays that are kept; then all are dropped, so that memory stays bounded.</summary>
    private const int Most = 4096;

    private readonly ConcurrentDictionary<string, Replay> known = new(StringComparer.Ordinal);

    /// <summary>The replay of each sequence of percents; new ones are for the caller to fill.</summary>
    public Replay[] Of(ZoneCase zone, int[] dates, IReadOnlyList<int[]> sequences, int[]? variants)
    {
        Replay[] replays = new Replay[sequences.Count];
        Span<char> key = stackalloc char[2 * dates.Length];
        for (int i = 0; i < replays.Length; i++)
        {
            int length = Write(key, zone, dates, sequences[i], variants);
            string settings = new(key[..length]);
            replays[i] = known.TryGetValue(settings, out Replay? replay) ? replay : new Replay(settings, years);
        }

        return replays;
    }

    /// <summary>Keeps replays that have been filled.</summary>
    public void Add(IEnumerable<Replay> filled)
    {
        foreach (Replay replay in filled)
        {
            if (known.Count >= Most)
            {
                known.Clear();
            }

            replay.IsNew = false;
            known.TryAdd(replay.Settings, replay);
        }
    }

    /// <summary>What is set from when on, without visits that leave all as it was.</summary>
    private static int Write(Span<char> key, ZoneCase zone, int[] dates, int[] percents, int[]? variants)
    {
        int length = 0, setting = SettingOf(zone, percents[^1], variants?[^1] ?? 0), before = setting;
        for (int visit = 0; visit < dates.Length; visit++)
        {
            int after = SettingOf(zone, percents[visit], variants?[visit] ?? 0);
            if (after != before)
            {
                key[length++] = (char)dates[visit];
                key[length++] = (char)after;
                before = after;
            }
        }

        if (length == 0)
        {
            key[length++] = (char)setting;
        }

        return length;
    }

    private static int SettingOf(ZoneCase zone, int percent, int variant) => percent == 0 || zone.IsOff(variant) ? 0 : (variant << 10) + percent;

    /// <summary>Water and stress of a zone by year.</summary>
    internal sealed class Replay(string settings, int years)
    {
        /// <summary>What was set when.</summary>
        public string Settings => settings;

        /// <summary>Whether it is still to be filled.</summary>
        public bool IsNew { get; set; } = true;

        /// <summary>Water of each year, mm.</summary>
        public double[] WaterMm { get; } = new double[years];

        /// <summary>Stress days of each year.</summary>
        public double[] StressDays { get; } = new double[years];

        public void Set(int year, double waterMm, double stressDays) => (WaterMm[year], StressDays[year]) = (waterMm, stressDays);
    }
}
