using System.Collections.Concurrent;
using System.CommandLine;
using System.CommandLine.Parsing;
using System.Text.RegularExpressions;
using Valvewright.Files.Problems;
using Valvewright.Files.Texts;

namespace Valvewright.Cli.Output;

/// <summary>Says what is wrong with a command line, and what was probably meant.</summary>
internal static partial class Usage
{
    /// <summary>Our own sentences under the text that the parser carries.</summary>
    private static readonly ConcurrentDictionary<string, Sentence> Ours = new(StringComparer.Ordinal);

    /// <summary>Adds an error to a line that is read.</summary>
    public static void Add(SymbolResult result, Sentence sentence)
    {
        Ours[sentence.Text] = sentence;
        result.AddError(sentence.Text);
    }

    public static void Explain(ParseResult parse, TextWriter error)
    {
        Language language = LanguageOption.Of(parse);
        Command command = parse.CommandResult.Command;
        string name = command is RootCommand ? "valvewright" : $"valvewright {command.Name}";
        List<Sentence> sentences = [];
        bool isCommandUnknown = command.Subcommands.Count > 0;
        foreach (string token in parse.UnmatchedTokens.Take(isCommandUnknown ? 1 : int.MaxValue))
        {
            bool isOption = token.StartsWith('-');
            IEnumerable<string> choices = isOption
                ? command.Options.Concat(parse.RootCommandResult.Command.Options.Where(o => o.Recursive)).Where(o => !o.Hidden)
                    .SelectMany(o => o.Aliases.Append(o.Name))
                : command.Subcommands.Select(c => c.Name);
            string typed = Printable.Of(token);
            Sentence unknown = isOption ? (Sentence)$"{name} has no option '{typed}'."
                : isCommandUnknown ? (Sentence)$"{name} has no command '{typed}'."
                : (Sentence)$"{name} takes no further argument '{typed}'.";
            sentences.Add(NearestWord.To(token.Split('=')[0], choices) is { } word ? (Sentence)$"{unknown} Nearest: {word}" : unknown);
        }

        // What the parser says about tokens it could not place has been said better above.
        sentences.AddRange(parse.Errors.Select(e => e.Message)
            .Where(m => sentences.Count == 0 || !parse.UnmatchedTokens.Any(t => m.Contains($"'{t}'", StringComparison.Ordinal)))
            .Where(m => sentences.Count == 0 || !m.StartsWith("Required command", StringComparison.Ordinal))
            .Select(m => Plainly(m, name)));
        foreach (string line in sentences.Distinct().Append((Sentence)$"Try: {name} --help").SelectMany(s =>
            Wrap.Lines(Sentences.Say(s, language), Sheet.Width, 4)))
        {
            error.WriteLine(line);
        }
    }

    /// <summary>What the parser says in terms of the program's insides, said in terms of what was typed.</summary>
    /// <param name="message">The parser's sentence, or one of ours.</param>
    /// <param name="command">The command of the line.</param>
    internal static Sentence Plainly(string message, string command)
    {
        if (Ours.GetValueOrDefault(message) is { } ours)
        {
            return ours;
        }

        Match match;
        if ((match = NoSuchKind().Match(message)).Success)
        {
            (string option, string found) = (Of(match, "name"), Printable.Of(Of(match, "found")));
            return Of(match, "type").Contains("Int32", StringComparison.Ordinal) ? (Sentence)$"'{option} {found}': expected a whole number."
                : (Sentence)$"'{option} {found}': expected a number.";
        }

        if ((match = NoSuchChoice().Match(message)).Success)
        {
            Sentence choices = Quoted().Matches(Of(match, "choices")).Select(m => (Sentence)m.Groups[1].Value)
                .Aggregate((all, next) => (Sentence)$"{all} or {next}");
            return $"'{Printable.Of(Of(match, "found"))}' is not known here; expected {choices}.";
        }

        return (match = NoValue().Match(message)).Success ? (Sentence)$"'{Of(match, "name")}' needs a value."
            : (match = ManyValues().Match(message)).Success
                ? (Sentence)$"'{Of(match, "name")}' takes one value; {Of(match, "count")} were given."
            : (match = NoArgument().Match(message)).Success ? (Sentence)$"{command} needs <{(Sentence)Of(match, "name")}>."
            : (match = NoOption().Match(message)).Success ? (Sentence)$"{command} needs {Of(match, "name")}."
            : (match = NotAlone().Match(message)).Success ? (Sentence)$"'{Of(match, "name")}' takes nothing else on the line."
            : Sentence.FromString(message);
    }

    private static string Of(Match match, string group) => match.Groups[group].Value;

    [GeneratedRegex("^Cannot parse argument '(?<found>.*)' for option '(?<name>.*)' as expected type '(?<type>.*)'",
        RegexOptions.Singleline)]
    private static partial Regex NoSuchKind();

    [GeneratedRegex("^Argument '(?<found>.*)' not recognized. Must be one of:(?<choices>.*)$", RegexOptions.Singleline)]
    private static partial Regex NoSuchChoice();

    [GeneratedRegex("^Required argument missing for option: '(?<name>.*)'\\.$")]
    private static partial Regex NoValue();

    [GeneratedRegex("^Option '(?<name>.*)' expects a single argument but (?<count>.*) were provided\\.$")]
    private static partial Regex ManyValues();

    [GeneratedRegex("^Required argument '(?<name>.*)' missing for command: '.*'\\.$")]
    private static partial Regex NoArgument();

    [GeneratedRegex("^Option '(?<name>.*)' is required\\.$")]
    private static partial Regex NoOption();

    [GeneratedRegex("^(?<name>.*) option cannot be combined with other arguments\\.$")]
    private static partial Regex NotAlone();

    [GeneratedRegex("'([^']*)'")]
    private static partial Regex Quoted();
}
