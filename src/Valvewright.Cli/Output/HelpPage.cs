using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using Valvewright.Cli.Commands;

namespace Valvewright.Cli.Output;

/// <summary>Help at 80 columns, with examples and exit codes.</summary>
internal sealed class HelpPage(HelpAction usual) : SynchronousCommandLineAction
{
    /// <inheritdoc/>
    public override bool ClearsParseErrors => true;

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        usual.MaxWidth = Sheet.Width;
        TextWriter output = parseResult.InvocationConfiguration.Output;
        usual.Invoke(parseResult);
        IReadOnlyList<string> examples = parseResult.CommandResult.Command is Job job ? job.Examples : ["valvewright plan --help"];
        output.WriteLine(examples.Count == 1 ? "Example:" : "Examples:");
        foreach (string example in examples)
        {
            // A line that goes on ends as a shell wants it, so that it can be copied whole.
            string[] lines = [.. Wrap.Lines($"  {example}", Sheet.Width - 2, 4)];
            for (int i = 0; i < lines.Length; i++)
            {
                output.WriteLine(i < lines.Length - 1 ? $"{lines[i]} \\" : lines[i]);
            }
        }

        output.WriteLine();
        output.WriteLine("Exit codes:");
        foreach ((int code, string meaning) in ExitCode.All)
        {
            foreach (string line in Wrap.Lines($"  {code,3}  {meaning}", Sheet.Width, 5))
            {
                output.WriteLine(line);
            }
        }

        return ExitCode.Done;
    }
}
