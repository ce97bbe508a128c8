using System.Text;
using Valvewright.Engine.Faults;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Faults;

/// <summary>What came of reading a fault model: the model or the problems, never both.</summary>
/// <param name="Model">The model; null where problems stood in the way.</param>
/// <param name="Problems">Everything that must be put right, in the order of the file.</param>
public sealed record FaultModelFile(FaultModel? Model, ListOf<Problem> Problems);

/// <summary>Reads the fault model, the one that ships or one that a technician corrected (docs/faults.md).</summary>
public static class FaultModelFiles
{
    private const long LargestBytes = 4 * 1024 * 1024;
    private const string Resource = "Valvewright.Files.Faults.faults.yaml";
    private static readonly YamlPurpose Purpose =
        new("fault model", "a fault model that begins with 'model:'", "keys such as 'causes:' and 'steps:'");
    private static readonly Lazy<FaultModel> Read =
        new(() => Parse(Text, "faults.yaml").Model ?? throw new InvalidOperationException("The fault model that ships can't be read."));

    /// <summary>The model that ships.</summary>
    public static FaultModel Shipped => Read.Value;

    /// <summary>The text of the model that ships, to copy and correct.</summary>
    public static string Text
    {
        get
        {
            using StreamReader reader = new(typeof(FaultModelFiles).Assembly.GetManifestResourceStream(Resource)!, Encoding.UTF8);
            return reader.ReadToEnd();
        }
    }

    /// <summary>Reads a file; never throws for anything that a file can hold or a path can be.</summary>
    public static FaultModelFile ReadFile(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        Findings findings = new(path);
        try
        {
            FileInfo info = new(path);
            if (Directory.Exists(path) || !info.Exists)
            {
                findings.RefuseFile(Directory.Exists(path) ? "a folder" : "no such file",
                    "a fault model, such as a corrected copy of the one that ships", "there is no fault model here");
            }
            else if (info.Length > LargestBytes)
            {
                findings.RefuseFile($"{info.Length} bytes", "a fault model", "this is too large for a fault model");
            }
            else
            {
                return Parse(File.ReadAllText(path, Encoding.UTF8), path);
            }
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            findings.RefuseFile(error.Message, "a file that can be read", "the fault model can't be read");
        }

        return new FaultModelFile(null, findings.Reading(null).Problems);
    }

    /// <summary>Reads a text.</summary>
    /// <param name="text">YAML or JSON.</param>
    /// <param name="name">The name to give in problems.</param>
    public static FaultModelFile Parse(string text, string name)
    {
        ArgumentNullException.ThrowIfNull(text);
        Findings findings = new(name);
        FaultModel? model = YamlTree.Read(text, findings, Purpose) is { } root ? new FaultModelReader(findings).Read(root) : null;
        ListOf<Problem> problems = findings.Reading(null).Problems;
        return new FaultModelFile(problems.Count == 0 ? model : null, problems);
    }
}
