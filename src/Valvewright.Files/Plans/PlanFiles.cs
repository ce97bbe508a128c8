using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using Valvewright.Files.Problems;

namespace Valvewright.Files.Plans;

/// <summary>What came of reading a saved plan: the plan or the problems, never both.</summary>
/// <param name="Saved">The plan; null where problems stood in the way.</param>
/// <param name="Problems">What stood in the way.</param>
public sealed record PlanReading(SavedPlan? Saved, ListOf<Problem> Problems);

/// <summary>Reads and writes saved plans (docs/proof.md says what is in them).</summary>
public static partial class PlanFiles
{
    /// <summary>The name of a saved plan in its folder.</summary>
    public const string UsualName = "plan.json";

    /// <summary>Larger files are refused, unread: the largest plan there can be has a tenth of this.</summary>
    private const long LargestBytes = 8L * 1024 * 1024;

    private const string Expected = "a plan that 'valvewright plan' has written";

    /// <summary>Every part must be there: a plan with a hole is none.</summary>
    private static readonly JsonSerializerOptions Strict = new(Json.Options)
    {
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
        TypeInfoResolver = PlanJson.Default,
    };

    /// <summary>The text of a plan's file.</summary>
    public static string Write(SavedPlan saved) => JsonSerializer.Serialize(saved, Strict) + "\n";

    /// <summary>Reads a file; never throws for anything that a file can hold or a path can be.</summary>
    public static PlanReading Read(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        try
        {
            if (Directory.Exists(path))
            {
                return Failed(path, 0, 0, "a folder", "there is no plan here");
            }

            if (new FileInfo(path) is { Exists: true, Length: > LargestBytes } large)
            {
                return Failed(path, 0, 0, $"{large.Length} bytes", "this is too large for a plan");
            }

            return Parse(GivenFile.ReadText(path, LargestBytes), path);
        }
        catch (Exception reason) when (reason is FileNotFoundException or DirectoryNotFoundException)
        {
            return Failed(path, 0, 0, "no such file", "there is no plan here");
        }
        catch (Exception reason) when (reason is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return Failed(path, 0, 0, reason.Message, "the plan can't be read");
        }
    }

    /// <summary>Reads the text of a plan's file.</summary>
    /// <param name="text">The text.</param>
    /// <param name="name">The name to give in problems.</param>
    public static PlanReading Parse(string text, string name)
    {
        ArgumentNullException.ThrowIfNull(text);
        try
        {
            SavedPlan? saved = JsonSerializer.Deserialize<SavedPlan>(text, Strict);
            return saved switch
            {
                null => Failed(name, 1, 1, "null", "not a plan"),
                { Version: not SavedPlan.Latest } => Failed(name, 0, 0, $"version {saved.Version}",
                    $"this plan was written by another version; this one reads version {SavedPlan.Latest}"),
                _ => new PlanReading(saved, []),
            };
        }
        catch (JsonException wrong)
        {
            string where = string.IsNullOrEmpty(wrong.Path) || wrong.Path == "$" ? "" : $" at {wrong.Path}";
            return Failed(name, (int)(wrong.LineNumber ?? -1) + 1, (int)(wrong.BytePositionInLine ?? -1) + 1, Plainly(wrong.Message),
                $"not a plan{where}");
        }
        catch (Exception wrong) when (
            wrong is NodaTime.Text.UnparsableValueException or ArgumentException or NotSupportedException or InvalidOperationException)
        {
            return Failed(name, 0, 0, Plainly(wrong.Message), "not a plan");
        }
    }

    private static PlanReading Failed(string file, int line, int column, string found, Sentence message) =>
        new(null, [new Problem(file, line, column, found, Expected, null, message)]);

    /// <summary>What the reader of JSON says, without the names of this program's insides.</summary>
    private static string Plainly(string message)
    {
        int end = message.IndexOf(" Path: ", StringComparison.Ordinal);
        string sentence = end > 0 ? message[..end] : message;
        string[] names = [.. Quoted().Matches(sentence).Select(m => m.Groups[1].Value)
            .Where(n => !n.Contains("Valvewright.", StringComparison.Ordinal))];
        return sentence switch
        {
            _ when sentence.Contains("could not be mapped to any", StringComparison.Ordinal) && names.Length > 0 =>
                $"an entry that no plan has: {names[0]}",
            _ when sentence.Contains("missing required properties", StringComparison.Ordinal) => $"left out: {string.Join(", ", names)}",
            _ when sentence.Contains("could not be converted to", StringComparison.Ordinal) => "a value of another kind",
            _ => sentence,
        };
    }

    [GeneratedRegex("'([^']*)'")]
    private static partial Regex Quoted();
}
