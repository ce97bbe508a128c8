using System.Text;
using System.Text.Json;
using Valvewright.Engine.Faults;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;

namespace Valvewright.Files.Faults;

/// <summary>What came of reading a trace that was put aside: the trace or the problems, never both.</summary>
/// <param name="Trace">The trace; null where a problem stood in the way.</param>
/// <param name="Problems">What stood in the way.</param>
public sealed record TraceFile(TraceCase? Trace, ListOf<Problem> Problems);

/// <summary>Writes traces and reads them again.</summary>
public static class TraceFiles
{
    private const long LargestBytes = 1024 * 1024;
    private const string Expected = "a trace that 'valvewright trace' has written";

    private static readonly JsonSerializerOptions Strict = new(Json.Options)
        { RespectNullableAnnotations = true, RespectRequiredConstructorParameters = true };

    /// <summary>The text of a trace's file.</summary>
    public static string Write(TraceCase trace) => Json.Write(trace) + "\n";

    /// <summary>Reads a file; never throws for anything that a file can hold or a path can be.</summary>
    public static TraceFile Read(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        try
        {
            FileInfo info = new(path);
            return Directory.Exists(path) || !info.Exists
                ? Failed(path, 0, 0, Directory.Exists(path) ? "a folder" : "no such file", "there is no trace here")
                : info.Length > LargestBytes ? Failed(path, 0, 0, $"{info.Length} bytes", "this is too large for a trace")
                : Parse(File.ReadAllText(path, Encoding.UTF8), path);
        }
        catch (Exception reason) when (reason is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return Failed(path, 0, 0, reason.Message, "the trace can't be read");
        }
    }

    /// <summary>Reads the text of a trace's file.</summary>
    /// <param name="text">The text.</param>
    /// <param name="name">The name to give in problems.</param>
    public static TraceFile Parse(string text, string name)
    {
        ArgumentNullException.ThrowIfNull(text);
        try
        {
            return JsonSerializer.Deserialize<TraceCase>(text, Strict) is { } trace ? new TraceFile(trace, [])
                : Failed(name, 1, 1, "null", "not a trace");
        }
        catch (JsonException wrong)
        {
            int line = (int)(wrong.LineNumber ?? -1) + 1;
            string found = text.Split('\n').ElementAtOrDefault(line - 1)?.Trim() ?? "";
            return Failed(name, line, (int)(wrong.BytePositionInLine ?? -1) + 1, found, "not a trace");
        }
        catch (Exception wrong) when (
            wrong is NodaTime.Text.UnparsableValueException or ArgumentException or NotSupportedException or InvalidOperationException)
        {
            return Failed(name, 0, 0, "a value that cannot be", "not a trace");
        }
    }

    private static TraceFile Failed(string file, int line, int column, string found, string message) =>
        new(null, [new Problem(file, line, column, found, Expected, null, message)]);
}
