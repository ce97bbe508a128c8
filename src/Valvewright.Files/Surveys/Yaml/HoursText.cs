using System.Globalization;
using Valvewright.Engine.Supply;

namespace Valvewright.Files.Surveys.Yaml;

/// <summary>Reads spans of hours: <c>22:00-06:00</c>, <c>10 pm to 6 am</c>.</summary>
internal static class HoursText
{
    internal const string Expected = "hours such as 22:00-06:00 or 10 pm to 6 am";

    /// <summary>A night is shorter; a longer span over midnight was written the wrong way round.</summary>
    private const int LongestNightHours = 19;

    internal static TimeWindow? Read(TextNode node, Findings findings)
    {
        string text = node.Text.Replace('–', '-').Replace(" to ", "-", StringComparison.OrdinalIgnoreCase);
        string[] ends = text.Split('-');
        LocalTime? from = ends.Length == 2 ? Time(ends[0]) : null;
        LocalTime? to = ends.Length == 2 ? Time(ends[1]) : null;
        if (from is null || to is null)
        {
            findings.Refuse(node, Expected, "These are not hours of a day");
            return null;
        }

        TimeWindow window = new(from.Value, to.Value);
        if (from == to)
        {
            findings.Refuse(node, "an end other than the beginning; leave 'hours' out where every hour is permitted",
                "The hours end where they begin");
            return null;
        }

        if (window.PassesMidnight && window.Seconds > LongestNightHours * 3600)
        {
            string nearest = ends[1].Trim() + "-" + ends[0].Trim();
            findings.Refuse(node, $"at most {LongestNightHours} hours over midnight",
                $"The hours look inside out: they last {window.Seconds / 3600.0:0.#} h, over midnight", nearest);
            return null;
        }

        return window;
    }

    /// <summary>A time of day; 24:00 is midnight.</summary>
    internal static LocalTime? Time(string text)
    {
        string plain = text.Trim().ToLowerInvariant().Replace(".", "", StringComparison.Ordinal);
        if (plain is "noon") return LocalTime.Noon;
        if (plain is "midnight") return LocalTime.Midnight;
        bool? afternoon = plain.EndsWith("pm", StringComparison.Ordinal) ? true : plain.EndsWith("am", StringComparison.Ordinal)
            ? false : null;
        string[] parts = (afternoon is null ? plain : plain[..^2]).Trim().Split(':');
        if (parts.Length > 2 || (parts.Length == 1 && afternoon is null)) return null;
        int minute = 0;
        if (!Digits(parts[0], out int hour) || (parts.Length == 2 && (parts[1].Length != 2 || !Digits(parts[1], out minute)))) return null;
        if (minute > 59) return null;
        if (afternoon is null) return hour == 24 && minute == 0 ? LocalTime.Midnight : hour <= 23 ? new LocalTime(hour, minute) : null;
        return hour is >= 1 and <= 12 ? new LocalTime((hour % 12) + (afternoon.Value ? 12 : 0), minute) : null;
    }

    private static bool Digits(string text, out int value) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value)
        && text.Length <= 2;
}
