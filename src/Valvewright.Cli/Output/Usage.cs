using System.CommandLine;
using System.Text.RegularExpressions;
using Valvewright.Files.Problems;

namespace Valvewright.Cli.Output;

/// <summary>Says what is wrong with a command line, and what was probably meant.</summary>
internal static partial class Usage
{
    public static void Explain(ParseResult parse, TextWriter error)
    {
        Command command = parse.CommandResult.Command;
        string name = command is RootCommand ? "valvewright" : $"valvewright {command.Name}";
        List<string> sentences = [];
        bool isCommandUnknown = command.Subcommands.Count > 0;
        foreach (string token in parse.UnmatchedTokens.Take(isCommandUnknown ? 1 : int.MaxValue))
        {
            bool isOption = token.StartsWith('-');
            IEnumerable<string> choices = isOption
                ? command.Options.Concat(parse.RootCommandResult.Command.Options.Where(o => o.Recursive)).Where(o => !o.Hidden)
                    .SelectMany(o => o.Aliases.Append(o.Name))
                : command.Subcommands.Select(c => c.Name);
            string kind = isOption ? "option" : command.Subcommands.Count > 0 ? "command" : "further argument";
            string nearest = NearestWord.To(token.Split('=')[0], choices) is { } word ? $" Nearest: {word}" : "";
            sentences.Add($"{name} has no {kind} '{token}'.{nearest}");
        }

        // What the parser says about tokens it could not place has been said better above.
        sentences.AddRange(parse.Errors
            .Select(e => Plainly(e.Message))
            .Where(m => sentences.Count == 0 || !parse.UnmatchedTokens.Any(t => m.Contains($"'{t}'", StringComparison.Ordinal)))
            .Where(m => sentences.Count == 0 || !m.StartsWith("Required command", StringComparison.Ordinal)));
        foreach (string line in sentences.Distinct().Append($"Try: {name} --help").SelectMany(s => Wrap.Lines(s, Sheet.Width, 4)))
        {
            error.WriteLine(line);
        }
    }

    /// <summary>What the parser says in terms of the program's insides, said in terms of what was typed.</summary>
    private static string Plainly(string message)
    {
        if (NoSuchKind().Match(message) is { Success: true } kind)
        {
            string what = kind.Groups["type"].Value.Contains("Int32", StringComparison.Ordinal) ? "a whole number" : "a number";
            return $"'{kind.Groups["name"].Value} {kind.Groups["found"].Value}': expected {what}.";
        }

        return NoSuchChoice().Match(message) is { Success: true } choice
            ? $"'{choice.Groups["found"].Value}' is not known here; expected {string.Join(" or ", Quoted().Matches(choice.Groups["choices"].Value).Select(m => m.Groups[1].Value))}."
            : message;
    }

    [GeneratedRegex("^Cannot parse argument '(?<found>.*)' for option '(?<name>.*)' as expected type '(?<type>.*)'",
        RegexOptions.Singleline)]
    private static partial Regex NoSuchKind();

    [GeneratedRegex("^Argument '(?<found>.*)' not recognized. Must be one of:(?<choices>.*)$", RegexOptions.Singleline)]
    private static partial Regex NoSuchChoice();

    [GeneratedRegex("'([^']*)'")]
    private static partial Regex Quoted();
}
