using System.Globalization;
using Valvewright.App.Shelf;
using Valvewright.App.Texts;
using Valvewright.Records;

namespace Valvewright.App.Pages.Visits;

/// <summary>What a visit holds, in words.</summary>
public static class VisitWords
{
    /// <summary>The facts of a visit, each in a few words.</summary>
    public static IEnumerable<string> Facts(VisitLine line, OpenedSite site, PageWords words)
    {
        VisitValue visit = line.Value;
        if (visit.AsFound.Length > 0)
        {
            yield return words["visits.fact.found"];
        }

        if (visit.AsLeft.Length > 0)
        {
            yield return words["visits.fact.left"];
        }

        if (visit.BatteryVolts is { } volts)
        {
            yield return words.Fill("visits.fact.battery", ("volts", Volts(volts)));
        }

        if (visit.CoilOhms.Count > 0)
        {
            yield return words.Count("visits.fact.coils", visit.CoilOhms.Count);
        }

        if (visit.MeterM3 is { } meter)
        {
            yield return words.Fill("visits.fact.meter", ("volume", site.Say.Volume(meter)));
        }

        int photos = (line.View?.Photos.Count ?? 0) + line.PhotosWaiting.Count;
        if (photos > 0)
        {
            yield return words.Count("visits.fact.photos", photos);
        }
    }

    /// <summary>Volts with their unit.</summary>
    public static string Volts(double volts) => volts.ToString("0.0#", CultureInfo.InvariantCulture) + " V";

    /// <summary>Ohms with their unit, or that there is no way through.</summary>
    public static string Ohms(double ohms, PageWords words)
    {
        return ohms >= VisitEntry.OpenOhms ? words["visits.coil.none"] : ohms.ToString("0.##", CultureInfo.InvariantCulture) + " Ω";
    }

    /// <summary>What the coils of one visit say.</summary>
    public static IEnumerable<(CoilReading Coil, CoilState State)> Judged(ListOf<CoilReading> coils)
    {
        return coils.Select(c => (c, Measured.OfCoil(c.Ohms, [.. coils.Where(o => o.Station != c.Station).Select(o => o.Ohms)])));
    }
}
