using System.CommandLine;
using System.CommandLine.Parsing;
using NodaTime;
using NodaTime.Text;

namespace Valvewright.Cli.Commands;

/// <summary>Arguments and options that several commands take.</summary>
internal static class SiteArguments
{
    /// <summary>The site file or its folder.</summary>
    public static Argument<string> Site() => new("site") { Description = "The site file, or the folder that holds it as site.yaml." };

    /// <summary>A date from which something holds; null when not given.</summary>
    public static Option<LocalDate?> From(string description) => Date("--from", description);

    /// <summary>A date; null when not given.</summary>
    public static Option<LocalDate?> Date(string name, string description) => new(name)
    {
        Description = description,
        HelpName = "yyyy-mm-dd",
        CustomParser = ReadDate,
    };

    private static LocalDate? ReadDate(ArgumentResult result)
    {
        string text = result.Tokens.Count == 0 ? "" : result.Tokens[0].Value;
        ParseResult<LocalDate> date = LocalDatePattern.Iso.Parse(text);
        if (date.Success && date.Value.Year is > 1900 and < 2200)
        {
            return date.Value;
        }

        result.AddError($"'{Output.Printable.Of(text)}' is no date; expected one as 2026-04-01, between the years 1901 and 2199.");
        return null;
    }
}
