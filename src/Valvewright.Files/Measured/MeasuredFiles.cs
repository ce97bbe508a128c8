using NodaTime;
using Valvewright.Engine.Audit;
using Valvewright.Engine.Power;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Measured;

/// <summary>Reads files of measurements (docs/measured-file.md).</summary>
public static class MeasuredFiles
{
    /// <summary>The name of the file next to a site file.</summary>
    public const string UsualName = "measured.yaml";

    private static readonly YamlPurpose Purpose =
        new("file of measurements", "measurements such as 'audits:' or 'meters:'", "keys such as 'audits:' and 'supplies:'");

    /// <summary>Reads a file; never throws for anything a file can hold or a path can be.</summary>
    /// <param name="path">The file.</param>
    /// <param name="site">The site it belongs to: its names and units.</param>
    public static MeasuredReading Read(string path, Site site)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(site);
        Findings findings = new(path);
        string? text = SurveyText.Load(path, findings);
        return text is null ? Done(null, findings) : Parse(text, findings, site);
    }

    /// <summary>Reads a text.</summary>
    /// <param name="text">The YAML.</param>
    /// <param name="name">The name to give in problems.</param>
    /// <param name="site">The site it belongs to.</param>
    public static MeasuredReading Parse(string text, string name, Site site) => Parse(text, new Findings(name), site);

    private static MeasuredReading Parse(string text, Findings findings, Site site)
    {
        if (YamlTree.Read(text, findings, Purpose) is not { } root) return Done(null, findings);
        ReadingContext context = new(findings) { Units = site.Units };
        MapReader map = new(root, MeasuredFields.File, context, "");
        context.Units = map.ValueOr("units", site.Units);
        MeasuredSite measured = new(
            map.Maps("audits").Select(m => Audit(m, site)).OfType<MeasuredAudit>().ToListOf(),
            map.Maps("supplies").Select(m => SupplyMeasurements.Read(m, site)).OfType<MeasuredSupply>().ToListOf(),
            map.Maps("batteries").Select(m => Battery(m, site)).OfType<MeasuredBattery>().ToListOf(),
            map.Maps("coils").Select(m => Coil(m, site)).OfType<MeasuredCoil>().ToListOf(),
            map.Maps("meters").Select(m => Meter(m, site)).OfType<MeasuredMeter>().ToListOf());
        return Done(measured, findings);
    }

    private static MeasuredReading Done(MeasuredSite? measured, Findings findings)
    {
        SurveyReading found = findings.Reading(null);
        return new MeasuredReading(found.Problems.Count == 0 ? measured : null, found.Problems, found.Warnings);
    }

    private static MeasuredAudit? Audit(MapReader map, Site site)
    {
        (string controller, int station) = Zone(map, site);
        double minutes = map.Amount("minutes") / 60;
        bool volumes = map.Has("volumes");
        if (volumes == map.Has("depths"))
        {
            map.Findings.Refuse(map.Map, "either 'volumes' with 'opening', or 'depths'", "An audit holds one list of readings");
            return null;
        }

        string key = volumes ? "volumes" : "depths";
        double opening = volumes ? map.Amount("opening", needed: true) : double.NaN;
        int count = map.Items(key).Count;
        ListOf<double> readings = map.Values<double>(key).Select(item => item.Value).ToListOf();
        if (count < 4 || (readings.Count == count && readings.Sum() == 0))
        {
            map.Findings.Refuse(map.Get(key)!, $"at least 4 readings, not all zero; {CatchCans.AdvisedCans} or more are advised",
                "These readings say nothing about evenness");
            return null;
        }

        ListOf<CanPlace> places = Places(map, count);
        if (readings.Count < count || double.IsNaN(minutes) || (volumes && double.IsNaN(opening))) return null;
        CatchCans cans = volumes ? CatchCans.OfLitres(readings, minutes, opening) : CatchCans.OfDepths(readings, minutes);
        return new MeasuredAudit(controller, station, map.Value<LocalDate>("on"), cans, places, Given(map, "wind"), Given(map, "pressure"),
            Given(map, "meter"), Confirmed(map));
    }

    private static ListOf<CanPlace> Places(MapReader map, int count)
    {
        if (map.Inner("grid") is { } grid)
        {
            int columns = grid.ValueOr("columns", 1);
            (double along, double between) = (grid.Amount("along"), grid.Amount("between"));
            return Enumerable.Range(0, count).Select(i => new CanPlace(along * (i % columns), between * (i / columns))).ToListOf();
        }

        ListOf<CanPlace> places = map.Maps("places").Select(p => new CanPlace(p.Amount("x"), p.Amount("y"))).ToListOf();
        if (places.Count > 0 && places.Count != count)
        {
            map.Findings.Refuse(
                map.Get("places")!, $"{count} places, one for each can", $"There are {places.Count} places for {count} cans");
        }

        return places;
    }

    private static MeasuredBattery? Battery(MapReader map, Site site)
    {
        string controller = MeasuredNames.Controller(map, site);
        if (!map.TryValue<BatteryType>("kind", out BatteryType? kind) || !map.TryValue("since", out LocalDate since)) return null;
        return new MeasuredBattery(
            controller, kind, since, Given(map, "volts"), map.ValueOr("load", 0.0), map.ValueOr("temperature", 20.0),
            Given(map, "capacity mah"), Given(map, "standby microamps"), Given(map, "pulse millicoulombs"), Confirmed(map));
    }

    private static MeasuredCoil Coil(MapReader map, Site site)
    {
        (string controller, int station) = Zone(map, site);
        int? gauge = map.Value<int>("gauge");
        if (gauge is { } given && !CopperWire.Gauges.Contains(given))
        {
            map.Findings.Refuse(map.Get("gauge")!, $"one of: {string.Join(", ", CopperWire.Gauges)}", "This is not a gauge of the table");
        }

        return new MeasuredCoil(
            controller, station, Given(map, "ohms"), map.ValueOr("at valve", false), gauge, Given(map, "wire"), Given(map, "coil ohms"),
                Given(map, "least volts"),
            Given(map, "source volts"), Given(map, "source ohms"), Confirmed(map));
    }

    private static MeasuredMeter Meter(MapReader map, Site site)
    {
        string supply = MeasuredNames.Supply(map, site);
        List<(LocalDate On, double M3)> readings = [];
        foreach (MapReader point in map.Maps("readings"))
        {
            if (!point.TryValue("on", out LocalDate on) || !point.TryValue("shows", out double liters)) continue;
            if (readings.Count > 0 && on <= readings[^1].On) map.Findings
                .Refuse(point.Map, "dates that follow each other", "Readings come in the order of their dates, each date once");
            readings.Add((on, liters / 1000));
        }

        double step = map.Amount("resolution");
        return new MeasuredMeter(supply, double.IsNaN(step) ? 0.01 : step / 1000, readings.ToListOf());
    }

    private static (string Controller, int Station) Zone(MapReader map, Site site)
    {
        string controller = MeasuredNames.Controller(map, site);
        return (controller, MeasuredNames.Station(map, site, controller));
    }

    private static double? Given(MapReader map, string key) => map.TryValue(key, out double value) ? value : null;

    private static bool Confirmed(MapReader map) => map.ValueOr("confirmed", false);
}
