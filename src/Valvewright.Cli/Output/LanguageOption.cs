using System.CommandLine;
using System.CommandLine.Parsing;
using Valvewright.Files.Texts;

namespace Valvewright.Cli.Output;

/// <summary>The language that a command line asks for. Only the option decides; no setting of the machine does.</summary>
internal static class LanguageOption
{
    private const string Name = "--language";
    private const string Spanish = "es";

    /// <summary>The option, for one command.</summary>
    public static Option<string> Make()
    {
        Option<string> option = new(Name)
        {
            Description = "Language of the answer and of the files: en or es.",
            HelpName = "en|es",
            DefaultValueFactory = _ => "en",
        };
        option.AcceptOnlyFromAmong("en", Spanish);
        return option;
    }

    /// <summary>The language that was asked for, also on a line with errors; what stands nearest to the command counts.</summary>
    public static Language Of(ParseResult parse)
    {
        for (SymbolResult? at = parse.CommandResult; at is CommandResult result; at = result.Parent)
        {
            if (result.Command.Options.FirstOrDefault(o => o.Name == Name) is { } option
                && parse.GetResult(option) is { Implicit: false, Tokens: [.., var last] })
            {
                return last.Value == Spanish ? Language.Spanish : Language.English;
            }
        }

        return Language.English;
    }
}
