using System.Globalization;
using Valvewright.Engine.Faults;
using Valvewright.Engine.Readings;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Records;

namespace Valvewright.Server.Visits;

/// <summary>What a reading or a visit may hold. The controller need not be in the survey any more: what was seen was seen.</summary>
internal static class RecordRules
{
    private const int LongestName = 200;
    private const int LongestNotes = 20_000;
    private const int MostCoils = 200;
    private const int MostAnswers = 1000;
    private const int MostStations = 999;

    /// <summary>A fresh 9 V battery shows under 10 V, 18 V packs exist; more cannot be measured on such a controller.</summary>
    private const double MostVolts = 30;

    /// <summary>An open coil reads as no number; anything a hand-held meter shows is below this.</summary>
    private const double MostOhms = 10_000_000;

    private const double MostM3 = 1e9;

    public static void Require(ReadingValue value)
    {
        Controller(value.Controller);
        Date(value.ReadAt, "readAt");
        Given.Lines(value.Text, "text", ReadingText.LongestText);
        Given.Lines(value.Notes, "notes", LongestNotes);
    }

    public static void Require(VisitValue value)
    {
        Controller(value.Controller);
        Date(value.At, "at");
        Given.Lines(value.AsFound, "asFound", ReadingText.LongestText);
        Given.Lines(value.AsLeft, "asLeft", ReadingText.LongestText);
        Given.Lines(value.Notes, "notes", LongestNotes);
        Given.Amount(value.BatteryVolts, "batteryVolts", 0, MostVolts);
        Given.Amount(value.MeterM3, "meterM3", 0, MostM3);
        Given.Amount(value.CoilOhms.Count, "the number of coilOhms", 0, MostCoils);
        foreach (CoilReading coil in value.CoilOhms)
        {
            if (coil is null)
            {
                throw Refusal.Wrong($"{"coilOhms"}", "null", "a station and its ohms", "This cannot be kept.");
            }

            Given.Amount(coil.Station, "coilOhms.station", 1, MostStations);
            Given.Amount(coil.Ohms, "coilOhms.ohms", 0, MostOhms);
        }
    }

    public static void Require(TraceValue value)
    {
        Controller(value.Controller);
        Date(value.At, "at");
        Given.Lines(value.Notes, "notes", LongestNotes);
        TraceCase trace = value.Trace;
        Given.Line(trace.Site, "site", LongestName);
        Given.Line(trace.Controller, "controller", LongestName);
        Given.Amount(trace.Answers.Count + trace.Repaired.Count + trace.Without.Count, "the number of answers", 0, MostAnswers);
        foreach (string? word in trace.Answers.SelectMany(a => new[] { a.Step, a.Answer, a.By }).Concat(trace.Repaired)
            .Concat(trace.Without).Append(trace.Complaint).Append(trace.Confirmed))
        {
            Given.Line(word ?? "", "trace", LongestName);
        }
    }

    private static void Controller(string name)
    {
        if (string.IsNullOrWhiteSpace(Given.Line(name, "controller", LongestName)))
        {
            throw Refusal.Wrong($"{"controller"}", $"{name}", "the controller's name", "It does not say of which controller.");
        }
    }

    private static void Date(LocalDateTime at, string name)
    {
        if (at.Year is < 1950 or > 2199)
        {
            throw Refusal.Wrong($"{name}", $"{at:uuuu-MM-dd}", "a date of the years 1950 to 2199", "This date cannot be right.");
        }
    }
}
