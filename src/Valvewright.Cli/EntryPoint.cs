using System.CommandLine;
using System.CommandLine.Help;
using Valvewright.Cli.Commands;
using Valvewright.Cli.Output;

namespace Valvewright.Cli;

/// <summary>The <c>valvewright</c> command: reads the command line, runs one job, ends with a documented exit code.</summary>
internal static class EntryPoint
{
    private static Task<int> Main(string[] arguments)
    {
        RootCommand root = new("Plan, prove and print settings for battery-powered irrigation controllers.");
        foreach (Job job in Jobs.All())
        {
            root.Subcommands.Add(job);
        }

        HelpOption help = root.Options.OfType<HelpOption>().Single();
        help.Action = new HelpPage((HelpAction)help.Action!);
        root.SetAction(parse => help.Action is HelpPage page ? page.Invoke(parse) : ExitCode.Done);

        // No @files and no bundling of short options: what is typed is what is meant.
        ParseResult parse = root
            .Parse(arguments, new ParserConfiguration { EnablePosixBundling = false, ResponseFileTokenReplacer = null });
        if (parse.Errors.Count > 0 && parse.Action is not HelpPage)
        {
            Usage.Explain(parse, Console.Error);
            return Task.FromResult(ExitCode.Usage);
        }

        return parse.InvokeAsync(
            new InvocationConfiguration { EnableDefaultExceptionHandler = false, ProcessTerminationTimeout = TimeSpan.FromSeconds(2) });
    }
}
