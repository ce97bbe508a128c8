using System.CommandLine;
using System.CommandLine.Parsing;
using NodaTime.Text;

namespace Valvewright.Cli.Commands;

/// <summary>Arguments and options that several commands take.</summary>
internal static class SiteArguments
{
    private const int LastYear = 2199;

    /// <summary>The site file or its folder.</summary>
    public static Argument<string> Site() => new("site") { Description = "The site file, or the folder with its site.yaml." };

    /// <summary>A date from which something holds; null when not given.</summary>
    public static Option<LocalDate?> From(string description) => Date("--from", description);

    /// <summary>A date; null when not given.</summary>
    public static Option<LocalDate?> Date(string name, string description, int firstYear = 1901) => new(name)
    {
        Description = description,
        HelpName = "yyyy-mm-dd",
        CustomParser = result => ReadDate(result, firstYear),
    };

    private static LocalDate? ReadDate(ArgumentResult result, int firstYear)
    {
        string text = result.Tokens.Count == 0 ? "" : result.Tokens[0].Value;
        ParseResult<LocalDate> date = LocalDatePattern.Iso.Parse(text);
        if (date.Success && date.Value.Year >= firstYear && date.Value.Year <= LastYear)
        {
            return date.Value;
        }

        Output.Usage.Add(result,
            $"'{Output.Printable.Of(text)}' is not a date; expected one as 2026-04-01, between the years {firstYear} and {LastYear}.");
        return null;
    }
}
