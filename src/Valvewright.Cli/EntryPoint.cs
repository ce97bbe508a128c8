using System.CommandLine;
using System.CommandLine.Help;
using Valvewright.Cli.Commands;
using Valvewright.Cli.Output;

namespace Valvewright.Cli;

/// <summary>The <c>valvewright</c> command: reads the command line, runs one job, ends with a documented exit code.</summary>
internal static class EntryPoint
{
    /// <summary>What the whole command is for, in one sentence.</summary>
    internal const string Purpose = "Plan, prove and print settings for battery-powered irrigation controllers.";

    private static Task<int> Main(string[] arguments)
    {
        RootCommand root = new(Purpose);
        root.Options.Add(LanguageOption.Make());
        foreach (Job job in Jobs.All())
        {
            root.Subcommands.Add(job);
        }

        HelpOption help = root.Options.OfType<HelpOption>().Single();
        HelpPage page = new();
        help.Action = page;
        root.SetAction(page.Invoke);

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
