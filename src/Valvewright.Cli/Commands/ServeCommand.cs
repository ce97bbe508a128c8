using System.CommandLine;
using System.Net;
using Valvewright.Cli.Output;
using Valvewright.Files.Problems;
using Valvewright.Server.Hosting;

namespace Valvewright.Cli.Commands;

/// <summary>Serves the sites of a store until it is stopped.</summary>
internal static class ServeCommand
{
    public static Job Make()
    {
        Option<string> store = StoreArguments.Store();
        Option<int> port = new("--port") { Description = "The port to listen on; 0 takes a free one.", HelpName = "number", DefaultValueFactory = _ => ServerOptions.UsualPort };
        Option<string> listen = new("--listen") { Description = "The address to listen on. Anybody who reaches it can read and change everything: there are no passwords.", HelpName = "address", DefaultValueFactory = _ => "127.0.0.1" };
        Option<string[]> names = new("--name") { Description = "A name under which requests may come, beside localhost and the address; can be given several times.", HelpName = "name" };
        Option<string> page = new("--page") { Description = "The folder of the published page, where it is not the one built with this command.", HelpName = "folder" };
        Job job = new("serve", "Serves the sites of a store to this machine, until stopped with Ctrl-C.", "valvewright serve --store sites.db", "valvewright serve --store sites.db --port 8080");
        foreach (Option option in new Option[] { store, port, listen, names, page })
        {
            job.Options.Add(option);
        }

        return job.Does((parse, sheet, cancel) => Run(OptionsOf(parse.GetValue(store)!, parse.GetValue(port), parse.GetValue(listen)!, parse.GetValue(names) ?? []) with { Page = PageOf(parse.GetValue(page)) }, sheet, cancel).GetAwaiter().GetResult());
    }

    private static ServerOptions OptionsOf(string store, int port, string listen, string[] names)
    {
        if (port is < 0 or > 65535)
        {
            throw new ProblemsException(new Problem("--port", 0, 0, $"{port}", "a number from 0 to 65535", null, "there is no such port"));
        }

        return IPAddress.TryParse(listen, out IPAddress? address)
            ? new ServerOptions { Store = store, Port = port, Address = address, Names = names }
            : throw new ProblemsException(new Problem("--listen", 0, 0, listen, "an address such as 127.0.0.1 or 0.0.0.0", null, "this is no address of a network interface"));
    }

    /// <summary>The page's folder: as said, as the environment says, or where it lies beside the command; null where there is none.</summary>
    private static string? PageOf(string? said)
    {
        if ((said ?? Environment.GetEnvironmentVariable("VALVEWRIGHT_PAGE")) is { Length: > 0 } folder)
        {
            return File.Exists(Path.Combine(folder, "index.html")) ? folder
                : throw new ProblemsException(new Problem(said is null ? "VALVEWRIGHT_PAGE" : "--page", 0, 0, folder, "a folder with index.html in it: the wwwroot of the published page", null, "there is no page in this folder"));
        }

        string here = AppContext.BaseDirectory;
        return ((string[])[Path.GetFullPath(Path.Combine(here, "..", "page", "wwwroot")), Path.Combine(here, "page")]).FirstOrDefault(f => File.Exists(Path.Combine(f, "index.html")));
    }

    private static async Task<int> Run(ServerOptions options, Sheet sheet, CancellationToken cancel)
    {
        await using SiteServer server = await SiteServer.StartAsync(options, cancel: cancel);
        if (!IPAddress.IsLoopback(options.Address))
        {
            await Console.Error.WriteLineAsync("valvewright: other machines can reach this server, and there are no passwords.");
        }

        // Said at once: whoever started it waits for this line.
        await Console.Out.WriteLineAsync($"Serving {options.Store} at {server.Address}");
        await Console.Out.WriteLineAsync(options.Page is null ? "The page is not built: only the API is served." : $"Open {server.Address} in a browser.");
        await Console.Out.FlushAsync(CancellationToken.None);
        await Task.Delay(Timeout.InfiniteTimeSpan, cancel).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        sheet.Answer(new ServeAnswer(options.Store, server.Address.ToString()));
        sheet.Say("Stopped.");
        return ExitCode.Done;
    }

    /// <summary>What <c>--json</c> prints at the end.</summary>
    private sealed record ServeAnswer(string Store, string Address);
}
