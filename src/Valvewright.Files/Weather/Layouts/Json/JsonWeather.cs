using System.Text;
using System.Text.Json;
using Valvewright.Files.Weather.Text;

namespace Valvewright.Files.Weather.Layouts.Json;

/// <summary>A JSON answer of a weather service being read: the tree, and problems at places in it.</summary>
internal sealed class JsonWeather
{
    /// <summary>Forty years of ten daily values are some 4 MB.</summary>
    public const int LargestCharacters = 24 * 1024 * 1024;

    private readonly byte[] utf8;

    private JsonWeather(ReadingJob job, byte[] utf8, JsonTree root)
    {
        Job = job;
        this.utf8 = utf8;
        Root = root;
    }

    public ReadingJob Job { get; }

    public JsonTree Root { get; }

    /// <summary>Parses the job's text; null after a problem.</summary>
    public static JsonWeather? Parse(ReadingJob job)
    {
        if (job.Text.Length > LargestCharacters)
        {
            job.Problem(0, 0, $"{job.Text.Length / 1e6:0} MB", $"at most {LargestCharacters / 1e6:0} MB",
                "the JSON is too large; ask for fewer years or values");
            return null;
        }

        byte[] utf8 = Encoding.UTF8.GetBytes(job.Text);
        try
        {
            return new JsonWeather(job, utf8, JsonTree.Parse(utf8));
        }
        catch (JsonException e)
        {
            string reason = e.Message.Split(". LineNumber", 2)[0].TrimEnd('.');
            job.Problem((int)(e.LineNumber ?? 0) + 1, (int)(e.BytePositionInLine ?? 0) + 1, "", "JSON to its closing bracket",
                $"this is not whole JSON ({reason})");
            return null;
        }
    }

    public void Problem(JsonTree at, string found, Sentence expected, Sentence message, string? nearest = null)
    {
        (int line, int column) = Job.Enough ? (0, 0) : JsonTree.PlaceOf(utf8, at.Offset);
        Job.Problem(line, column, found, expected, message, nearest);
    }

    /// <summary>A member that must be a number within bounds; NaN after a problem.</summary>
    public double Number(JsonTree? value, JsonTree holder, string name, double least, double most)
    {
        if (value is null || !(value.Number >= least && value.Number <= most))
        {
            Problem(value ?? holder, value?.Text ?? "nothing", $"a number from {least} to {most}", $"{name} is not such a number");
            return double.NaN;
        }

        return value.Number;
    }
}
