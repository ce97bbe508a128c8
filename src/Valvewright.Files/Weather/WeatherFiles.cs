using Valvewright.Files.Problems;
using Valvewright.Files.Weather.Layouts;
using Valvewright.Files.Weather.Layouts.Agencies;
using Valvewright.Files.Weather.Layouts.Ghcn;
using Valvewright.Files.Weather.Layouts.Json;
using Valvewright.Files.Weather.Layouts.Power;
using Valvewright.Files.Weather.Text;

namespace Valvewright.Files.Weather;

/// <summary>Reads files of daily weather in the layouts of <see cref="WeatherLayout"/>.</summary>
public static class WeatherFiles
{
    /// <summary>
    /// Reads a file. Whatever the file holds, the answer is a record with notes or located problems; nothing is thrown for bad input.
    /// </summary>
    public static WeatherReading Read(string path, WeatherReadOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(path);
        options ??= WeatherReadOptions.None;
        (string? text, Problem? problem) = SourceText.Load(path, options.LargestBytes);
        return text is null ? WeatherReading.Failed(options.Layout, problem!) : ReadText(path, text, options);
    }

    /// <summary>Reads bytes as they would stand in a file of that name.</summary>
    public static WeatherReading ReadBytes(string name, ReadOnlySpan<byte> bytes, WeatherReadOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(name);
        options ??= WeatherReadOptions.None;
        (string? text, Problem? problem) = SourceText.Decode(name, bytes);
        return text is null ? WeatherReading.Failed(options.Layout, problem!) : ReadText(name, text, options);
    }

    private static WeatherReading ReadText(string name, string text, WeatherReadOptions options)
    {
        ReadingJob job = new(name, text, options);
        WeatherLayout layout = options.Columns is not null ? WeatherLayout.NamedColumns : options.Layout ?? LayoutFinder.Find(text);
        switch (layout)
        {
            case WeatherLayout.GhcnDaily: GhcnDaily.Read(job); break;
            case WeatherLayout.GhcnLongCsv: GhcnLongCsv.Read(job); break;
            case WeatherLayout.GhcnOrderCsv or WeatherLayout.GhcnAccessCsv: layout = GhcnRows.Read(job, layout); break;
            case WeatherLayout.NasaPowerCsv: PowerTable.Read(job, ','); break;
            case WeatherLayout.NasaPowerText: PowerTable.Read(job, DelimitedText.Blanks); break;
            case WeatherLayout.NasaPowerJson: PowerJson.Read(job); break;
            case WeatherLayout.OpenMeteoJson: OpenMeteoJson.Read(job); break;
            case WeatherLayout.CimisCsv: CimisCsv.Read(job); break;
            case WeatherLayout.AzmetDaily: AzmetDaily.Read(job); break;
            case WeatherLayout.EnergyPlusWeather: EnergyPlusWeather.Read(job); break;
            case WeatherLayout.NamedColumns: NamedColumns.Read(job); break;
            case var named when AgencyTables.Of(named) is { } table: table.Read(job); break;
            default: PlainCsv.Read(job); break;
        }

        return job.Finish(layout);
    }
}
