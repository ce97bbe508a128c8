using System.Text;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;
using Valvewright.Tests;

namespace Valvewright.Files.Tests.Weather;

/// <summary>The real weather files of the reference folder, and short texts made up on the spot.</summary>
internal static class Samples
{
    public static string Folder { get; } = Path.Combine(Checkout.Root, "reference", "weather");

    public static string PathOf(string name) => Path.Combine(Folder, name);

    public static WeatherReading Read(string name, WeatherReadOptions? options = null) => WeatherFiles.Read(PathOf(name), options);

    /// <summary>Reads a text as if it stood in a file.</summary>
    public static WeatherReading Text(string text, WeatherReadOptions? options = null, string name = "park.csv") =>
        WeatherFiles.ReadBytes(name, Encoding.UTF8.GetBytes(text), options);

    /// <summary>The only problem of a reading that must have failed.</summary>
    public static Problem OnlyProblem(this WeatherReading reading)
    {
        Assert.Null(reading.Record);
        return Assert.Single(reading.Problems);
    }

    public static WeatherReading Good(this WeatherReading reading)
    {
        Assert.True(reading.Ok, string.Join('\n', reading.Problems));
        Assert.Empty(reading.Problems);
        return reading;
    }

    public static bool Notes(this WeatherReading reading, WeatherNoteKind kind, string part) =>
        reading.Notes.Any(note => note.Kind == kind && note.Text.Text.Contains(part, StringComparison.Ordinal));
}
