using System.Globalization;
using System.Text.Json;
using Valvewright.App.Outbox;
using Valvewright.App.Pages.Visits;
using Valvewright.App.Parts.Versions;
using Valvewright.App.Texts;
using Valvewright.Files.Texts;
using Valvewright.Records;
using Valvewright.Records.Views;

namespace Valvewright.App.Pages.Own;

/// <summary>What waits on the device, in words.</summary>
public static class UnsentWords
{
    private static readonly string[] Explained =
        ["changed-since", "version-needed", "not-found", "wrong-input", "too-large", "wrong-type", "id-taken", "too-many", "wrong-text",
            "strange-host", "foreign-origin", "weather-not-named"];

    /// <summary>What it is: of which controller and when, or of which site.</summary>
    public static string Title(UnsentRecord record, PageWords words)
    {
        (string Controller, LocalDateTime At)? about = record.Kind switch
        {
            "visit" when VisitLine.ValueOf(record) is { } visit => (visit.Controller, visit.At),
            "trace" when Read<TraceValue>(record.Body) is { } trace => (trace.Controller, trace.At),
            "reading" when ReadingOf(record) is { } reading => (reading.Controller, reading.ReadAt),
            _ => null,
        };
        string kind = words[$"unsent.kind.{record.Kind}"];
        string site = record.SiteName.Length > 0 ? $"{record.SiteName}, " : "";
        return about is { } of ? $"{kind}: {site}{of.Controller}, {Of(record, words).Minute(of.At)}" : record.SiteName.Length > 0
            ? $"{kind}: {record.SiteName}" : kind;
    }

    /// <summary>Why it was refused, in the person's language.</summary>
    public static string Why(UnsentRecord record, PageWords words)
    {
        ProblemDocument? problem = ProblemOf(record);
        return problem?.Removed == true ? words["unsent.why.removed"]
            : Explained.Contains(problem?.Kind) ? words[$"unsent.why.{problem!.Kind}"]
            : words["unsent.why.other"];
    }

    /// <summary>The problem that the server told; null where none can be read.</summary>
    public static ProblemDocument? ProblemOf(UnsentRecord record)
    {
        return Read<ProblemDocument>(record.Problem);
    }

    /// <summary>The two versions that met; null where the refusal is about something else.</summary>
    public static Meeting? MeetingOf(UnsentRecord record) => ProblemOf(record) is { } problem ? Meeting.Of(problem) : null;

    /// <summary>What it says, each member in words: for a person to read before they decide.</summary>
    public static ListOf<(string Name, string Value)> Says(UnsentRecord record, PageWords words)
    {
        if (record.Body is null || record.Kind is not ("visit" or "reading" or "trace")
            || Read<JsonElement?>(record.Body) is not { ValueKind: JsonValueKind.Object } whole)
        {
            return record.Body is { } text ? [("", text)] : [];
        }

        return whole.EnumerateObject().Where(m => m.Name != "trace")
            .Select(m => (Name(m.Name, words),
                Shown(m.Name, m.Value.ValueKind == JsonValueKind.String ? m.Value.GetString()!
                    : m.Value.GetRawText(), words, Of(record, words))))
            .Where(m => m.Item2.Length > 0).ToListOf();
    }

    /// <summary>What a member of a record is called.</summary>
    public static string Name(string member, PageWords words)
    {
        return words.All.Names.Contains($"unsent.member.{member}") ? words[$"unsent.member.{member}"] : member;
    }

    /// <summary>A member's value as a person reads it.</summary>
    /// <param name="member">The member.</param>
    /// <param name="value">Its value as text or JSON.</param>
    /// <param name="words">The person's language.</param>
    /// <param name="say">The site's units and clock style.</param>
    public static string Shown(string member, string value, PageWords words, SiteWords say)
    {
        return member switch
        {
            "at" or "readAt" when NodaTime.Text.LocalDateTimePattern.ExtendedIso.Parse(value) is { Success: true } at =>
                say.Minute(at.Value),
            "from" when NodaTime.Text.LocalDatePattern.Iso.Parse(value) is { Success: true } date => say.Date(date.Value),
            "coilOhms" when Read<ListOf<CoilReading>>(value) is { } coils => string
                .Join("; ", coils.Select(c => $"{words.Fill("visits.coil", ("station", c.Station))}: {VisitWords.Ohms(c.Ohms, words)}")),
            "batteryVolts" when value != "null" => value + " V",
            "meterM3" when say.IsUs && double.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out double volume) =>
                $"{say.VolumeNumber(volume).ToString("#,0.#", CultureInfo.InvariantCulture)} {say.VolumeUnit}",
            "meterM3" when value != "null" => value + " m³",
            _ => value == "null" ? "" : value,
        };
    }

    /// <summary>Which texts a moment of the device's own time has.</summary>
    public static string Made(UnsentRecord record, PageWords words)
    {
        return Of(record, words).Minute(record.MadeAt.InZone(DateTimeZoneProviders.Tzdb.GetSystemDefault()).LocalDateTime);
    }

    /// <summary>The units and clock style of the record's site; those of the device where they were not at hand when it was
    /// recorded.</summary>
    public static SiteWords Of(UnsentRecord record, PageWords words)
    {
        return record is { Units: { } units, Clock: { } clock } ? new SiteWords(units, clock, words.Common) : words.OfDevice;
    }

    private static ReadingValue? ReadingOf(UnsentRecord record) => Read<ReadingValue>(record.Body);

    private static T? Read<T>(string? text)
    {
        try
        {
            return text is null ? default : Json.Read<T>(text);
        }
        catch (JsonException)
        {
            return default;
        }
    }
}
