using System.Globalization;
using NodaTime;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Words;

namespace Valvewright.Planning;

/// <summary>Flows and times as the site shows them.</summary>
internal static class InWords
{
    public static string Flow(Site site, double lpm) => site.Units == UnitSystem.Metric
        ? string.Create(CultureInfo.InvariantCulture, $"{lpm:0.#} L/min")
        : string.Create(CultureInfo.InvariantCulture, $"{lpm / UsUnits.LitresPerGallon:0.#} gpm");

    /// <summary>The step in which flows are advised, L/min: a whole litre or half a gallon.</summary>
    public static double FlowStepLpm(Site site) => site.Units == UnitSystem.Metric ? 1 : UsUnits.LitresPerGallon / 2;

    public static string Time(Site site, int secondsAfterMidnight)
    {
        LocalTime time = LocalTime.FromSecondsSinceMidnight(((secondsAfterMidnight % 86_400) + 86_400) % 86_400);
        return site.Clock == ClockStyle.Hours24
            ? time.ToString("HH:mm", CultureInfo.InvariantCulture)
            : time.ToString("h:mm tt", CultureInfo.InvariantCulture).ToLowerInvariant();
    }

    public static Sentence Minutes(int minutes) =>
        minutes < 120 ? (Sentence)$"{minutes} minutes" : (Sentence)$"{minutes / 60} h {minutes % 60:00} min";

    /// <summary>"A", "A and B", "A, B and C".</summary>
    public static string List(IReadOnlyList<string> names) =>
        names.Count < 2 ? string.Concat(names) : $"{string.Join(", ", names.SkipLast(1))} and {names[^1]}";
}
