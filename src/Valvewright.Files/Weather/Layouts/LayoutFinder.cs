using Valvewright.Files.Weather.Layouts.Agencies;
using Valvewright.Files.Weather.Layouts.Ghcn;
using Valvewright.Files.Weather.Layouts.Power;
using Valvewright.Files.Weather.Text;

namespace Valvewright.Files.Weather.Layouts;

/// <summary>Tells a file's layout from its content; names and endings of files do not matter.</summary>
internal static class LayoutFinder
{
    /// <summary>How far into a JSON text its telling names are looked for.</summary>
    private const int JsonLookedThrough = 200_000;

    /// <summary>The layout; a plain CSV where nothing else fits.</summary>
    public static WeatherLayout Find(string text)
    {
        ReadOnlySpan<char> start = text.AsSpan().TrimStart();
        if (start[0] is '{' or '[')
        {
            ReadOnlySpan<char> looked = start[..Math.Min(start.Length, JsonLookedThrough)];
            return looked.Contains("\"parameter\"", StringComparison.Ordinal) && !looked.Contains("\"daily\"", StringComparison.Ordinal)
                ? WeatherLayout.NasaPowerJson
                : WeatherLayout.OpenMeteoJson;
        }

        if (start.StartsWith(PowerHeader.Begin, StringComparison.Ordinal))
        {
            return WeatherLayout.NasaPowerCsv;
        }

        if (EnergyPlusWeather.Fits(start))
        {
            return WeatherLayout.EnergyPlusWeather;
        }

        if (Array.Find(AgencyTables.All, table => table.Find(text) is not null) is { } agency)
        {
            return agency.Layout;
        }

        DelimitedText row = new(text, ',');
        row.Next();
        if (GhcnDaily.Fits(row.Whole))
        {
            return WeatherLayout.GhcnDaily;
        }

        return TableOf(row) ?? (PowerTable.Fits(BlankRow(text)) ? WeatherLayout.NasaPowerText : WeatherLayout.PlainCsv);
    }

    private static WeatherLayout? TableOf(DelimitedText row) =>
        PowerTable.Fits(row) ? WeatherLayout.NasaPowerCsv
        : GhcnRows.Fits(row) is { } ghcn ? ghcn
        : CimisCsv.Fits(row) ? WeatherLayout.CimisCsv
        : AzmetDaily.Fits(row) ? WeatherLayout.AzmetDaily
        : GhcnLongCsv.Fits(row) ? WeatherLayout.GhcnLongCsv
        : null;

    private static DelimitedText BlankRow(string text)
    {
        DelimitedText row = new(text, DelimitedText.Blanks);
        row.Next();
        return row;
    }
}
