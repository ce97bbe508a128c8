using System.Text;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Readings;

/// <summary>What came of reading the file of a reading.</summary>
/// <param name="Text">What it says and what is doubtful; null where a problem stood in the way.</param>
/// <param name="Problems">Everything that must be put right, in the order of the file. The quick form has none: it has doubts.</param>
public sealed record ReadingFile(ReadText? Text, ListOf<Problem> Problems);

/// <summary>Reads readings: the quick form, YAML or JSON (docs/readings.md).</summary>
public static class ReadingFiles
{
    /// <summary>Larger files are refused, unread.</summary>
    private const long LargestBytes = 1024 * 1024;

    private static readonly YamlPurpose Purpose =
        new("reading", "what was read off a display, such as 'off: yes' or 'programs:'", "keys such as 'clock:' and 'programs:'");

    /// <summary>Reads a file; never throws for anything that a file can hold or a path can be.</summary>
    /// <param name="path">The file. One that ends in .yaml, .yml or .json is read as such.</param>
    /// <param name="profile">The controller's profile, if known.</param>
    /// <param name="clock">How its display shows times, if known.</param>
    /// <param name="names">Names of the site that may be spoken.</param>
    public static ReadingFile Read(string path, Profile? profile = null, ClockStyle? clock = null, SiteNames? names = null)
    {
        ArgumentNullException.ThrowIfNull(path);
        Findings findings = new(path);
        try
        {
            FileInfo info = new(path);
            if (Directory.Exists(path) || !info.Exists)
            {
                findings.RefuseFile(Directory.Exists(path) ? "a folder" : "no such file", "a file with what was read off the display",
                    "there is no reading here");
            }
            else if (info.Length > LargestBytes)
            {
                findings.RefuseFile($"{info.Length} bytes", "what you read off a display", "this is too large for a reading");
            }
            else
            {
                return Parse(GivenFile.ReadText(path, LargestBytes), path, profile, clock, names);
            }
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            findings.RefuseFile(error.Message, "a file that can be read", "the reading can't be read");
        }

        return new ReadingFile(null, findings.Reading(null).Problems);
    }

    /// <summary>Reads a text.</summary>
    /// <param name="text">The text.</param>
    /// <param name="name">The name to give in problems; its ending tells YAML and JSON, as does a text that begins with a brace.</param>
    /// <param name="profile">The controller's profile, if known.</param>
    /// <param name="clock">How its display shows times, if known.</param>
    /// <param name="names">Names of the site that may be spoken.</param>
    public static ReadingFile Parse(string text, string name, Profile? profile = null, ClockStyle? clock = null, SiteNames? names = null)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(name);
        string ending = Path.GetExtension(name).ToLowerInvariant();
        if (ending is not (".yaml" or ".yml" or ".json") && !text.TrimStart().StartsWith('{'))
        {
            return new ReadingFile(ReadingText.Parse(text, profile, clock, names), []);
        }

        Findings findings = new(name);
        ReadText? read = YamlTree.Read(text, findings, Purpose) is { } root ? new ReadingTree(findings, profile, clock).Read(root) : null;
        ListOf<Problem> problems = findings.Reading(null).Problems;
        return new ReadingFile(problems.Count == 0 ? read : null, problems);
    }

    /// <summary>The reading as JSON; it is read again as the same.</summary>
    public static string WriteJson(Engine.Readings.Reading reading) => Json.Write(reading) + "\n";
}
