using System.Text.Json;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Files.Visits;

/// <summary>Settings as the script of the work at a controller reads them: times as seconds after midnight, dates as days from
/// 1970-01-01.</summary>
internal static class SheetSettings
{
    private static readonly LocalDate Epoch = new(1970, 1, 1);

    /// <summary>A planned program.</summary>
    public static void Write(Utf8JsonWriter json, Program program)
    {
        json.WriteStartObject();
        json.WriteString("letter", program.Letter.ToString());
        json.WritePropertyName("days");
        WriteRule(json, program.Days);
        WriteStarts(json, program.StartTimes);
        WriteRuns(json, program.RunTimes);
        json.WriteEndObject();
    }

    /// <summary>What the last visit left and measured; nothing of its settings where a word of them was doubtful.</summary>
    public static void WriteLast(Utf8JsonWriter json, SiteController device, ClockStyle clock, LastVisit? last)
    {
        if (last is null)
        {
            json.WriteNull("last");
            return;
        }

        ReadText read = ReadingText.Parse(last.AsLeft, device.Profile, clock);
        Reading left = read.IsCertain ? read.Reading : new Reading();
        json.WriteStartObject("last");
        json.WriteNumber("day", DayNumber(last.At.Date));
        WriteMeasured(json, "volts", last.Battery);
        WriteMeasured(json, "meterM3", last.Meter);
        json.WriteStartObject("coils");
        foreach ((int station, double ohms, LocalDate on) in last.Coils)
        {
            WriteMeasured(json, station.ToString(System.Globalization.CultureInfo.InvariantCulture), (ohms, on));
        }

        json.WriteEndObject();
        WriteNumber(json, "percent", left.Percent);
        json.WriteBoolean("off", left.Off == true);
        json.WriteStartArray("programs");
        foreach (ReadProgram program in left.Programs)
        {
            WriteRead(json, program, last.At.Date);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteMeasured(Utf8JsonWriter json, string name, (double Value, LocalDate On)? measured)
    {
        if (measured is not { } known)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartArray(name);
        json.WriteNumberValue(known.Value);
        json.WriteNumberValue(DayNumber(known.On));
        json.WriteEndArray();
    }

    private static void WriteRead(Utf8JsonWriter json, ReadProgram program, LocalDate on)
    {
        json.WriteStartObject();
        json.WriteString("letter", program.Letter.ToString());
        if (program.Days is { } days)
        {
            json.WritePropertyName("days");
            WriteDays(json, days, on);
        }

        if (program.StartTimes is { } starts)
        {
            WriteStarts(json, starts);
        }

        if (program.RunTimes is { } runs)
        {
            WriteRuns(json, runs);
        }

        json.WriteEndObject();
    }

    private static void WriteDays(Utf8JsonWriter json, ReadDays days, LocalDate on)
    {
        if (days is not { Kind: DayRuleKind.Interval, IntervalDays: { } n })
        {
            WriteRule(json, days.Kind switch
            {
                DayRuleKind.DaysOfWeek => new DaysOfWeek(days.Weekdays),
                DayRuleKind.Odd => new OddDays(),
                DayRuleKind.Even => new EvenDays(),
                _ => null,
            });
            return;
        }

        LocalDate? next = days.Next ?? (days.DaysLeft is { } left ? on.PlusDays(left) : n == 1 ? on : null);
        json.WriteStartObject();
        json.WriteString("kind", "interval");
        json.WriteNumber("n", n);
        WriteNumber(json, "anchor", next is { } date ? DayNumber(date) : null);
        json.WriteEndObject();
    }

    private static void WriteRule(Utf8JsonWriter json, DayRule? rule)
    {
        if (rule is null)
        {
            json.WriteNullValue();
            return;
        }

        json.WriteStartObject();
        json.WriteString("kind", rule.Kind == DayRuleKind.DaysOfWeek ? "week" : rule.Kind.ToString().ToLowerInvariant());
        switch (rule)
        {
            case DaysOfWeek week:
                json.WriteStartArray("days");
                foreach (IsoDayOfWeek day in week.Days.Distinct().Order())
                {
                    json.WriteNumberValue((int)day);
                }

                json.WriteEndArray();
                break;
            case EveryNDays every:
                json.WriteNumber("n", every.Days);
                json.WriteNumber("anchor", DayNumber(every.Anchor));
                break;
        }

        json.WriteEndObject();
    }

    private static void WriteStarts(Utf8JsonWriter json, ListOf<LocalTime> starts)
    {
        json.WriteStartArray("starts");
        foreach (LocalTime start in starts.Distinct().Order())
        {
            json.WriteNumberValue(start.NanosecondOfDay / NodaConstants.NanosecondsPerSecond);
        }

        json.WriteEndArray();
    }

    private static void WriteRuns(Utf8JsonWriter json, ListOf<RunTime> runs)
    {
        json.WriteStartArray("runs");
        foreach (RunTime run in runs.OrderBy(r => r.Station))
        {
            json.WriteStartArray();
            json.WriteNumberValue(run.Station);
            json.WriteNumberValue(run.Seconds);
            json.WriteEndArray();
        }

        json.WriteEndArray();
    }

    private static void WriteNumber(Utf8JsonWriter json, string name, double? number)
    {
        if (number is { } known)
        {
            json.WriteNumber(name, known);
        }
        else
        {
            json.WriteNull(name);
        }
    }

    private static int DayNumber(LocalDate date) => Period.DaysBetween(Epoch, date);
}
