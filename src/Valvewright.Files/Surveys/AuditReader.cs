using Valvewright.Engine.Sprinklers;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Reads a catch-can test; the raw readings are kept.</summary>
internal static class AuditReader
{
    private const int Fewest = 4;

    internal static CatchCans? Read(MapReader sprinklers)
    {
        if (sprinklers.Inner("audit") is not { } map) return null;
        double minutes = map.Amount("minutes") / 60;
        bool volumes = map.Has("volumes");
        if (volumes == map.Has("depths"))
        {
            map.Findings.Refuse(map.Map, "either 'volumes' with 'opening', or 'depths'", "An audit holds one list of readings");
            return null;
        }

        string key = volumes ? "volumes" : "depths";
        double opening = volumes ? map.Amount("opening", needed: true) : double.NaN;
        int cans = map.Items(key).Count;
        ListOf<double> readings = map.Values<double>(key).Select(item => item.Value).ToListOf();
        if (cans < Fewest || (readings.Count == cans && readings.Sum() == 0))
        {
            map.Findings.Refuse(map.Get(key)!, $"at least {Fewest} readings, not all zero; {CatchCans.AdvisedCans} or more are advised",
                "These readings say nothing about evenness");
            return null;
        }

        if (readings.Count < cans || double.IsNaN(minutes) || (volumes && double.IsNaN(opening))) return null;
        CatchCans test = volumes ? CatchCans.OfLitres(readings, minutes, opening) : CatchCans.OfDepths(readings, minutes);
        Advise(map, key, test);
        return test;
    }

    private static void Advise(MapReader map, string key, CatchCans cans)
    {
        if (cans.Readings.Count < CatchCans.AdvisedCans)
        {
            map.Findings.Question(map.Get(key)!, $"{CatchCans.AdvisedCans} cans or more, a multiple of 4",
                $"{cans.Readings.Count} cans are few for an audit; they are used as they are");
        }

        map.Findings.Assume(
            $"{map.Path}/{key}",
            $"low-quarter uniformity {SiteAmounts.Number(100 * cans.LowQuarterUniformity, 1)}%, Christiansen {SiteAmounts.Number(100 * cans.ChristiansenUniformity, 1)}%",
            cans.QuarterRule);
    }
}
