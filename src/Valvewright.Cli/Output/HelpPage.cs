using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using Valvewright.Cli.Commands;
using Valvewright.Files.Texts;

namespace Valvewright.Cli.Output;

/// <summary>Help at 80 columns in the language that the line asks for, with examples and exit codes.</summary>
internal sealed class HelpPage : SynchronousCommandLineAction
{
    private const int WidestName = 26;

    /// <inheritdoc/>
    public override bool ClearsParseErrors => true;

    /// <summary>All that help says about a command in words, for a test that each has Spanish.</summary>
    public static IEnumerable<string> WordsOf(Command command) =>
        new[] { command.Description }.Concat(command.Arguments.SelectMany(a => new[] { a.Name, a.Description }))
            .Concat(command.Options.SelectMany(o => new[] { o.HelpName, DescriptionOf(o) })).OfType<string>()
            .Where(t => t.Any(char.IsLetter));

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        Page page = new(parseResult.InvocationConfiguration.Output, LanguageOption.Of(parseResult));
        Command command = parseResult.CommandResult.Command;
        page.Heading("Description:");
        page.Paragraph($"  {page.In(command.Description ?? "")}", 0);
        page.Heading("Usage:");
        string[] usage = ["valvewright", .. command is RootCommand ? [page.In("[command]")] : new[] { command.Name },
            .. command.Arguments.Select(page.Place), page.In("[options]")];
        page.Paragraph($"  {string.Join(' ', usage)}", 4);
        page.Rows("Arguments:", command.Arguments.Select(a => (page.Place(a), page.In(a.Description ?? ""))));
        page.Rows("Options:", command.Options.Concat(parseResult.RootCommandResult.Command.Options.Where(o => o.Recursive)).Distinct()
            .OrderBy(o => o is HelpOption or VersionOption).Select(o => (page.Names(o), page.Meaning(o))));
        page.Rows("Commands:", command.Subcommands.Select(c =>
            (string.Join(' ', c.Arguments.Select(page.Place).Prepend(c.Name)), page.In(c.Description ?? ""))));
        Examples(page, command is Job job ? job.Examples : ["valvewright plan --help"]);
        page.Heading("Exit codes:");
        foreach ((int code, string meaning) in ExitCode.All)
        {
            page.Paragraph($"  {code,3}  {page.In(meaning)}", 5);
        }

        return ExitCode.Done;
    }

    private static void Examples(Page page, IReadOnlyList<string> examples)
    {
        page.Heading(examples.Count == 1 ? "Example:" : "Examples:");
        foreach (string example in examples)
        {
            // A line that goes on ends as a shell wants it, so that it can be copied whole.
            string[] lines = [.. Wrap.Lines($"  {example}", Sheet.Width - 2, 4)];
            for (int i = 0; i < lines.Length; i++)
            {
                page.Line(i < lines.Length - 1 ? $"{lines[i]} \\" : lines[i]);
            }
        }
    }

    private static string? DescriptionOf(Option option) => option switch
    {
        HelpOption => "Show this help.",
        VersionOption => "Show the version.",
        _ => option.Description,
    };

    /// <summary>What is written, in one language.</summary>
    private sealed class Page(TextWriter output, Language language)
    {
        private bool isBegun;

        public string In(Sentence sentence) => Sentences.Say(sentence, language);

        public void Line(string line) => output.WriteLine(line);

        public void Heading(Sentence heading)
        {
            if (isBegun)
            {
                output.WriteLine();
            }

            isBegun = true;
            output.WriteLine(In(heading));
        }

        public void Paragraph(string text, int hang)
        {
            foreach (string line in Wrap.Lines(text, Sheet.Width, hang))
            {
                output.WriteLine(line);
            }
        }

        /// <summary>Names on the left, what they mean on the right; nothing where there are none.</summary>
        public void Rows(Sentence heading, IEnumerable<(string Name, string Meaning)> given)
        {
            (string Name, string Meaning)[] rows = [.. given];
            if (rows.Length == 0)
            {
                return;
            }

            Heading(heading);
            int wide = Math.Min(WidestName, rows.Max(r => r.Name.Length));
            foreach ((string name, string meaning) in rows)
            {
                string[] lines = [.. Wrap.Lines(meaning, Sheet.Width - wide - 4)];
                bool isOwnLine = name.Length > wide;
                if (isOwnLine)
                {
                    output.WriteLine($"  {name}");
                }

                for (int i = 0; i < lines.Length; i++)
                {
                    output.WriteLine($"  {(i == 0 && !isOwnLine ? name : "").PadRight(wide)}  {lines[i]}");
                }
            }
        }

        public string Place(Argument argument) => argument.Arity.MinimumNumberOfValues == 0 ? $"[<{In(argument.Name)}>]"
            : $"<{In(argument.Name)}>";

        public string Names(Option option)
        {
            string names = string.Join(", ",
                option.Aliases.Append(option.Name).Where(n => n.StartsWith('-')).OrderBy(n => n.Length)
                    .ThenBy(n => n, StringComparer.Ordinal));
            return option.HelpName is { } value ? $"{names} <{In(value)}>" : names;
        }

        public string Meaning(Option option)
        {
            string meaning = In(DescriptionOf(option) ?? "") + (option.Required ? $" {In("(required)")}" : "");
            return option is { HasDefaultValue: true, Arity.MaximumNumberOfValues: > 0 }
                && option.GetDefaultValue()?.ToString() is { Length: > 0 } usual && option.ValueType != typeof(bool)
                ? $"{meaning} {In($"[default: {usual}]")}" : meaning;
        }
    }
}
