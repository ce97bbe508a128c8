using System.CommandLine.Parsing;
using System.Text;
using NodaTime.Text;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Files.Plans;
using Valvewright.Files.Problems;
using Valvewright.Files.Texts;

namespace Valvewright.Cli.Commands;

/// <summary>What was given to a check.</summary>
/// <param name="Reading">File of the reading; null or - for standard input.</param>
/// <param name="Controller">Name of the controller, if given.</param>
/// <param name="Plan">File of the plan, if given.</param>
/// <param name="Alone">Whether to leave the plan out.</param>
/// <param name="At">Site time of the reading, if given.</param>
/// <param name="Language">Language of the answer.</param>
/// <param name="Seen">What was seen, if anything.</param>
internal sealed record CheckArguments(string? Reading, string? Controller, string? Plan, bool Alone, LocalDateTime? At,
    Language Language, string? Seen)
{
    /// <summary>Stands for the file where nothing was read.</summary>
    public const string NothingRead = "nothing read";

    /// <summary>Stands for the file where it was read from standard input.</summary>
    public const string Input = "standard input";

    private const long LargestBytes = 1024 * 1024;

    private static readonly LocalDateTimePattern[] Patterns =
    [
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm"),
            LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm"),
        LocalDateTimePattern.GeneralIso,
    ];

    /// <summary>Reads <c>--at</c>.</summary>
    public static LocalDateTime? ReadTime(ArgumentResult result)
    {
        string text = result.Tokens.Count == 0 ? "" : result.Tokens[0].Value;
        foreach (LocalDateTimePattern pattern in Patterns)
        {
            if (pattern.Parse(text) is { Success: true, Value.Year: > 1990 and < 2200 } time)
            {
                return time.Value;
            }
        }

        Usage.Add(result,
            $"'{Printable.Of(text)}' is not a date and time; expected one as 2026-07-14T15:20, between the years 1991 and 2199.");
        return null;
    }

    /// <summary>The reading's text and a name for it.</summary>
    public (string Source, string Text) ReadText()
    {
        if (Reading is null && Seen is not null)
        {
            return (NothingRead, "");
        }

        if (Reading is null or "-")
        {
            if (Reading is null && !Console.IsInputRedirected)
            {
                throw new ProblemsException(
                    new Problem("the reading", 0, 0, "nothing", "a file, or - and the text on standard input", null,
                        "there is nothing to check"));
            }

            return (Input, Encoding.UTF8.GetString(GivenFile.ReadBytes(Console.OpenStandardInput(), LargestBytes)));
        }

        if (new FileInfo(Reading) is { Exists: true, Length: > LargestBytes } large)
        {
            throw new ProblemsException(
                new Problem(Reading, 0, 0, $"{large.Length} bytes", "what you read off a display", null,
                    "this is too large for a reading"));
        }

        if (Directory.Exists(Reading))
        {
            throw new ProblemsException(new Problem(Reading, 0, 0, "a folder", "a file with what was read off the display", null,
                "there is no reading here"));
        }

        return File.Exists(Reading)
            ? (Reading, GivenFile.ReadText(Reading, LargestBytes))
            : throw new ProblemsException(
                new Problem(Reading, 0, 0, "no such file", "a file with what was read off the display", null, "there is no reading here"));
    }

    /// <summary>The controller that is meant.</summary>
    public SiteController ChooseController(SiteFile file, string? named)
    {
        Site site = file.Site;
        string? name = Controller ?? named;
        string[] names = [.. site.Controllers.Select(c => c.Name)];
        if (name is null)
        {
            return site.Controllers.Count == 1
                ? site.Controllers[0]
                : throw new ProblemsException(
                    new Problem(file.Path, 0, 0, "", $"--controller with one of: {string.Join(", ", names)}", null,
                        "it does not say which controller was read"));
        }

        return site.Controllers.FirstOrDefault(c => string.Equals(c.Name, name, StringComparison.OrdinalIgnoreCase))
            ?? throw new ProblemsException(new Problem(
                file.Path, 0, 0, name, $"one of: {string.Join(", ", names)}", NearestWord.To(name, names),
                    "the survey has no controller of that name"));
    }

    /// <summary>The plan to compare with and its file; nulls where there is none.</summary>
    public (string? File, SavedPlan? Saved) FindPlan(SiteFile site)
    {
        if (Alone)
        {
            return (null, null);
        }

        string file = Plan ?? site.UsualPlan;
        if (Plan is null && !File.Exists(file))
        {
            return (null, null);
        }

        SavedPlan saved = site.ReadPlan(file);
        site.RequireKeyable(saved, file);
        return (file, saved);
    }
}
