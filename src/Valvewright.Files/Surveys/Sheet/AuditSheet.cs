using System.Globalization;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;

namespace Valvewright.Files.Surveys.Sheet;

/// <summary>Puts a catch-can test into a survey, in place of what was assumed of the zone.</summary>
public static class AuditSheet
{
    private const double MmPerMeter = 1000;

    /// <summary>The survey's text with the test; everything else is kept, remarks too.</summary>
    /// <param name="text">The survey.</param>
    /// <param name="controller">The controller's name.</param>
    /// <param name="station">The station that waters the zone.</param>
    /// <param name="cans">What the cans caught.</param>
    /// <returns>Null where the survey has no such zone, or could not be read with the test in it.</returns>
    public static string? With(string text, string controller, int station, CatchCans cans)
    {
        ArgumentNullException.ThrowIfNull(cans);
        if (SurveySheet.Of(text) is not { } sheet || ZoneOf(sheet, controller, station) is not { } zone) return null;
        string audit = $"{zone}/sprinklers/audit";
        sheet.Remove(audit);
        sheet.Remove($"{zone}/sprinklers/uniformity");
        sheet.Set($"{audit}/minutes", $"{Number(cans.Minutes)} min");
        bool isDepths = Math.Abs(cans.MmPerReading - MmPerMeter) < 1e-9;
        if (!isDepths) sheet.Set($"{audit}/opening", $"{Number(10_000 / cans.MmPerReading)} cm2");
        sheet.SetTexts($"{audit}/{(isDepths ? "depths" : "volumes")}",
            cans.Readings.Select(r => $"{Number(r * 1000)}{(isDepths ? " mm" : "")}"));
        string changed = sheet.Write();
        return SurveyFiles.ParseApart(changed, "survey").Site is null ? null : changed;
    }

    private static string? ZoneOf(SurveySheet sheet, string controller, int station)
    {
        string wanted = station.ToString(CultureInfo.InvariantCulture);
        for (int c = 0; c < sheet.Count("controllers"); c++)
        {
            if (sheet.Text($"controllers/{c}/name") != controller) continue;
            for (int z = 0; z < sheet.Count($"controllers/{c}/zones"); z++)
            {
                if (sheet.Text($"controllers/{c}/zones/{z}/station") == wanted) return $"controllers/{c}/zones/{z}";
            }
        }

        return null;
    }

    private static string Number(double value) => Math.Round(value, 6).ToString("R", CultureInfo.InvariantCulture);
}
