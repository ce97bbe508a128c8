using NodaTime;
using Valvewright.App.Texts;
using Valvewright.Engine.Faults;
using Valvewright.Engine.Values;
using Valvewright.Files.Faults;
using Valvewright.Records;

namespace Valvewright.App.Pages.Trace;

/// <summary>What a trace leaves in the history of its site.</summary>
public static class TraceNotes
{
    private const double MostOhms = 10_000_000;
    private const double MostVolts = 30;

    /// <summary>Complaint, answers and end, a line each.</summary>
    public static string Of(TraceCase trace, TraceView view, TraceSaid said, PageWords words)
    {
        ArgumentNullException.ThrowIfNull(trace);
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(said);
        ArgumentNullException.ThrowIfNull(words);
        string station = trace.Station is { } n ? $" ({said.Fill("station", ("n", n))})" : "";
        List<string> lines = [words.Fill("trace.kept.complaint", ("complaint", said.Complaint(trace.Complaint) + station))];
        lines.AddRange(trace.Answers.Select(a => $"{said.Step(a.Step)}: {said.Answer(a)}"));
        lines.AddRange(trace.Repaired.Select(c => said.Fill("end.stays", ("cause", said.Cause(c)))));
        if (view.End is { } end)
        {
            lines.Add(words.Fill(
                "trace.kept.end", ("end", said.Fill($"end.{end.Kind}", ("cause", string.Join("; ", end.Causes.Select(said.Cause)))))));
        }

        if (trace.Confirmed is { } confirmed)
        {
            lines.Add(said.Fill("end.confirmed", ("cause", said.Cause(confirmed))));
        }

        return string.Join('\n', lines);
    }

    /// <summary>The battery and the coil that were measured on the day, as a visit; null where neither was.</summary>
    public static VisitValue? VisitOf(TraceCase trace, LocalDateTime at, string notes)
    {
        ArgumentNullException.ThrowIfNull(trace);
        double? volts = Measured("battery volts");
        ListOf<CoilReading> coils = trace.Station is { } station && Measured("coil ohms") is { } ohms
            ? [new CoilReading(station, Math.Min(ohms, MostOhms))]
            : [];
        return volts is null && coils.Count == 0 ? null
            : new VisitValue(trace.Controller, at, "", "", volts is > MostVolts ? null : volts, coils, null, notes);

        double? Measured(string step) =>
            trace.Answers.FirstOrDefault(a => a.Step == step && (a.At is not { } when || when.Date == at.Date))?.Value;
    }
}
