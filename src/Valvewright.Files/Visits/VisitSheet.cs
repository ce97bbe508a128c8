using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Cards;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Visits;

/// <summary>
/// What the work at a site's controllers needs where there is no engine: settings through the year, what displays can hold, what the last
/// visits left, and every word in one language. The page's script (<c>wwwroot/js/flow</c>) and carried files read it.
/// </summary>
/// <param name="site">The survey.</param>
/// <param name="id">The site's id.</param>
/// <param name="version">The version of the site that it is made of.</param>
/// <param name="plan">The plan.</param>
/// <param name="from">The plan's first date.</param>
/// <param name="limits">How measured values are judged.</param>
public sealed class VisitSheet(Site site, Guid id, string version, Plan plan, LocalDate from, MeasuredLimits limits)
{
    /// <summary>The form that the script reads.</summary>
    public const int Form = 1;

    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The sheet as JSON.</summary>
    /// <param name="last">The last visit to each controller by its name; none for those that were never visited.</param>
    /// <param name="language">The language of its words.</param>
    /// <param name="madeAt">When what it rests on was fetched.</param>
    /// <param name="maker">Which build made it.</param>
    public string Write(IReadOnlyDictionary<string, LastVisit> last, Language language, Instant madeAt, string maker)
    {
        ArgumentNullException.ThrowIfNull(last);
        using MemoryStream bytes = new();
        using (Utf8JsonWriter json = new(bytes, Options))
        {
            json.WriteStartObject();
            json.WriteNumber("form", Form);
            json.WriteString("version", version);
            json.WriteString("maker", maker);
            json.WriteString("site", id.ToString());
            json.WriteString("siteName", site.Name);
            json.WriteString("zone", site.TimeZone);
            json.WriteBoolean("isUs", site.Units == UnitSystem.UsCustomary);
            json.WriteBoolean("hours24", site.Clock == ClockStyle.Hours24);
            json.WriteString("language", language == Language.Spanish ? "es" : "en");
            json.WriteString("from", Iso(from));
            json.WriteNumber("madeAt", madeAt.ToUnixTimeMilliseconds());
            WriteLimits(json);
            json.WriteStartArray("controllers");
            foreach (ControllerPlan planned in plan.Controllers.Where(c => site.Controllers.Any(d => d.Name == c.Controller)))
            {
                WriteController(json, site.ControllerNamed(planned.Controller), planned, last.GetValueOrDefault(planned.Controller));
            }

            json.WriteEndArray();
            json.WriteStartObject("words");
            Wording words = Wording.In(language);
            foreach (string name in words.Names.Where(IsWanted).Order(StringComparer.Ordinal))
            {
                json.WriteString(name, words[name]);
            }

            json.WriteEndObject();
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(bytes.ToArray());
    }

    private static bool IsWanted(string name) => name.Split('.')[0] is "flow" or "day" or "month" or "unit";

    private static string Iso(LocalDate date) => LocalDatePattern.Iso.Format(date);

    private static long Seconds(LocalTime time) => time.NanosecondOfDay / NodaConstants.NanosecondsPerSecond;

    private void WriteLimits(Utf8JsonWriter json)
    {
        json.WriteStartObject("cellVolts");
        json.WriteNumber("most", limits.MostCellVolts);
        json.WriteNumber("fresh", limits.FreshCellVolts);
        json.WriteNumber("least", limits.LeastCellVolts);
        json.WriteEndObject();
        WriteNumbers(json, "coilOhms", limits.ShortOhms, limits.LeastOhms, limits.MostOhms, limits.OpenOhms);
    }

    private void WriteController(Utf8JsonWriter json, SiteController device, ControllerPlan planned, LastVisit? last)
    {
        json.WriteStartObject();
        json.WriteString("name", device.Name);
        json.WriteNumber("percent", planned.Settings.PercentAdjust);
        json.WriteNumber("cells", last?.Cells ?? limits.UsualCells);
        WriteProfile(json, device.Profile);
        ClockStep clock = ClockStep.Of(site.Zone(), device.Profile, from);
        json.WriteStartObject("clock");
        if (clock.Kind == ClockKind.StandardTime)
        {
            json.WriteNumber("standardMinutes", clock.StandardOffset.Seconds / 60);
        }
        else
        {
            json.WriteNull("standardMinutes");
        }

        json.WriteEndObject();
        WriteZones(json, device);
        WritePermitted(json, site.SupplyNamed(device.Supply).Permitted);
        ListOf<Program>[] sets = [.. planned.ProgramSets];
        json.WriteStartArray("sets");
        foreach (ListOf<Program> set in sets)
        {
            json.WriteStartArray();
            foreach (Program program in set)
            {
                SheetSettings.Write(json, program);
            }

            json.WriteEndArray();
        }

        json.WriteEndArray();
        json.WriteStartArray("visits");
        for (int v = 0; v < planned.Visits.Count; v++)
        {
            Visit visit = planned.Visits[v];
            json.WriteStartObject();
            json.WriteString("on", $"{visit.Date.Month:00}-{visit.Date.Day:00}");
            json.WriteNumber("percent", visit.Percent);
            json.WriteNumber("set", Array.IndexOf(sets, planned.ProgramsAfter(v)));
            json.WriteEndObject();
        }

        json.WriteEndArray();
        SheetSettings.WriteLast(json, device, site.Clock, last);
        json.WriteEndObject();
    }

    private static void WriteProfile(Utf8JsonWriter json, Profile profile)
    {
        json.WriteStartObject("profile");
        json.WriteNumber("stations", profile.Stations);
        json.WriteNumber("programs", profile.Programs);
        json.WriteNumber("starts", profile.StartTimesPerProgram);
        json.WriteNumber("startStep", profile.StartStepMinutes);
        json.WriteNumber("runStep", profile.RunTimeStepSeconds);
        json.WriteNumber("runLimit", profile.RunTimeLimitSeconds);
        json.WriteNumber("longestInterval", profile.LargestIntervalDays);
        json.WriteNumber("pause", profile.PauseBetweenStationsSeconds);
        json.WriteBoolean("countsDaysLeft", profile.IntervalCountsDaysLeft);
        json.WriteBoolean("oddSkips31", profile.OddSkips31);
        json.WriteBoolean("oddSkips29February", profile.OddSkips29February);
        WriteNumbers(json, "percent", profile.Percent.Least, profile.Percent.Largest, profile.Percent.Step);
        json.WriteStartArray("rules");
        foreach (DayRuleKind kind in profile.KnownDayRules)
        {
            json.WriteStringValue(kind == DayRuleKind.DaysOfWeek ? "week" : kind.ToString().ToLowerInvariant());
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteZones(Utf8JsonWriter json, SiteController device)
    {
        Pairs(json, "zones", device.Zones, z => json.WriteStringValue(z.Name));
        Pairs(json, "flows", device.Zones.Where(z => double.IsFinite(z.Emission.FlowLpm)), z =>
            json.WriteNumberValue(Math.Round(z.Emission.FlowLpm, 3)));
        WriteNumbers(json, "drip",
            [.. device.Zones.Where(z => z.Emission.Kind is EmissionKind.Drip or EmissionKind.Bubbler).Select(z => (double)z.Station)]);
    }

    private static void Pairs(Utf8JsonWriter json, string name, IEnumerable<Zone> zones, Action<Zone> value)
    {
        json.WriteStartArray(name);
        foreach (Zone zone in zones)
        {
            json.WriteStartArray();
            json.WriteNumberValue(zone.Station);
            value(zone);
            json.WriteEndArray();
        }

        json.WriteEndArray();
    }

    private static void WritePermitted(Utf8JsonWriter json, Engine.Supply.PermittedTimes permitted)
    {
        json.WriteStartObject("permitted");
        json.WriteStartArray("hours");
        foreach (Engine.Supply.TimeWindow window in permitted.Hours)
        {
            json.WriteStartArray();
            json.WriteNumberValue(Seconds(window.From));
            json.WriteNumberValue(Seconds(window.To));
            json.WriteEndArray();
        }

        json.WriteEndArray();
        WriteNumbers(json, "weekdays", [.. permitted.Weekdays.Select(d => (double)d)]);
        json.WriteString("parity", permitted.Parity.ToString().ToLowerInvariant());
        json.WriteBoolean("dripIsExempt", permitted.DripIsExempt);
        json.WriteEndObject();
    }

    private static void WriteNumbers(Utf8JsonWriter json, string name, params ReadOnlySpan<double> numbers)
    {
        json.WriteStartArray(name);
        foreach (double number in numbers)
        {
            json.WriteNumberValue(number);
        }

        json.WriteEndArray();
    }
}
