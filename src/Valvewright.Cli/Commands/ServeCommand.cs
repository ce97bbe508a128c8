using System.CommandLine;
using System.Net;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Files.Problems;
using Valvewright.Server.Hosting;
using Valvewright.Server.Pairing;

namespace Valvewright.Cli.Commands;

/// <summary>Serves the sites of a store until it is stopped.</summary>
internal static class ServeCommand
{
    public static Job Make()
    {
        Option<string> store = StoreArguments.Store();
        Option<int> port = new("--port") { Description = "The port to listen on; 0 takes a free one.", HelpName = "number",
            DefaultValueFactory = _ => ServerOptions.UsualPort };
        Option<string> listen = new("--listen")
            { Description = "The address to listen on. Without --code, anyone who reaches it can read and change everything.",
                HelpName = "address", DefaultValueFactory = _ => "127.0.0.1" };
        Option<string[]> names = new("--name") { Description =
            "Another host name that requests may use. May be repeated.", HelpName = "name" };
        Option<string> page = new("--page")
            { Description = "Folder of the published page. Default: the one built with this command.", HelpName = "folder" };
        Option<string?> certificate = new("--certificate")
            { Description =
                "Certificate for HTTPS, a PFX or PEM file. A phone keeps the page for use without a signal only over HTTPS.",
                    HelpName = "file" };
        Option<string?> key = new("--key")
            { Description = "The certificate's private key, if it is in a file of its own.", HelpName = "file" };
        Option<string?> code = new("--code")
            { Description = "A code of at least 8 characters that a device must give once before it can read or change anything.",
                HelpName = "code" };
        Job job = new("serve", "Serve the sites of a store to this machine until stopped with Ctrl-C.",
            "valvewright serve --store sites.db", "valvewright serve --store sites.db --port 8080",
                "valvewright serve --listen 0.0.0.0 --name sites.example.org --certificate site.pem --code 7KMW4PXA");
        foreach (Option option in new Option[] { store, port, listen, names, page, certificate, key, code })
        {
            job.Options.Add(option);
        }

        return job.Does((parse, sheet, cancel) =>
            Run(OptionsOf(parse.GetValue(store)!, parse.GetValue(port), parse.GetValue(listen)!, parse.GetValue(names) ?? []) with
                { Page = PageOf(parse.GetValue(page)), Certificate = Certificates.Read(parse.GetValue(certificate), parse.GetValue(key)),
                    Code = CodeOf(parse.GetValue(code)) }, sheet, cancel).GetAwaiter().GetResult());
    }

    private static ServerOptions OptionsOf(string store, int port, string listen, string[] names)
    {
        if (port is < 0 or > 65535)
        {
            throw new ProblemsException(new Problem("--port", 0, 0, $"{port}", "a number from 0 to 65535", null, "no such port"));
        }

        return IPAddress.TryParse(listen, out IPAddress? address)
            ? new ServerOptions { Store = store, Port = port, Address = address, Names = names }
            : throw new ProblemsException(
                new Problem("--listen", 0, 0, listen, "an address such as 127.0.0.1 or 0.0.0.0", null,
                    "not an address of a network interface"));
    }

    private static string? CodeOf(string? said) => said is null || SharedCode.Plain(said).Length >= SharedCode.LeastSigns ? said
        : throw new ProblemsException(
            new Problem("--code", 0, 0, said, $"at least {SharedCode.LeastSigns} letters and digits", null,
                "a short code is soon guessed"));

    /// <summary>The page's folder: as said, as the environment says, or where it lies beside the command; null where there is
    /// none.</summary>
    private static string? PageOf(string? said)
    {
        if ((said ?? Environment.GetEnvironmentVariable("VALVEWRIGHT_PAGE")) is { Length: > 0 } folder)
        {
            return File.Exists(Path.Combine(folder, "index.html")) ? folder
                : throw new ProblemsException(new Problem(said is null ? "VALVEWRIGHT_PAGE" : "--page", 0, 0, folder,
                    "a folder with index.html in it: the wwwroot of the published page", null, "there is no page in this folder"));
        }

        string here = AppContext.BaseDirectory;
        return ((string[])[Path.GetFullPath(Path.Combine(here, "..", "page", "wwwroot")), Path.Combine(here, "page")]).FirstOrDefault(
            f => File.Exists(Path.Combine(f, "index.html")));
    }

    private static async Task<int> Run(ServerOptions options, Sheet sheet, CancellationToken cancel)
    {
        await using SiteServer server = await SiteServer.StartAsync(options, cancel: cancel);
        if (!IPAddress.IsLoopback(options.Address) && options.Code is null)
        {
            await Console.Error.WriteLineAsync("valvewright: " + sheet.In(
                "Other machines can reach this server, and anyone who reaches it can change everything. Give it a code: --code"));
        }

        Uri open = IPAddress.IsLoopback(options.Address) ? server.Address : options.Outside(server.Address);
        // Said at once: anyone who started it waits for this line.
        await Console.Out.WriteLineAsync(sheet.In($"Serving {StoreArguments.Shown(options.Store)} at {server.Address}"));
        await Console.Out.WriteLineAsync(sheet.In(
            options.Page is null ? "The page is not built: only the API is served." : (Sentence)$"Open {open} in a browser."));
        if (options.Code is { } code)
        {
            string pair = new Uri(
                options.Outside(server.Address), $"{SharedCode.Address}/{Uri.EscapeDataString(SharedCode.Plain(code))}").ToString();
            await Console.Out.WriteLineAsync(sheet.In($"Pair a phone: scan this, or open {pair}"));
            await Console.Out.WriteLineAsync(Files.Cards.QrPicture.Of([pair]).Text());
        }

        await Console.Out.FlushAsync(CancellationToken.None);
        await Task.Delay(Timeout.InfiniteTimeSpan, cancel).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        sheet.Answer(new ServeAnswer(StoreArguments.Shown(options.Store), server.Address.ToString()));
        sheet.Say("Stopped.");
        return ExitCode.Done;
    }

    /// <summary>What <c>--json</c> prints at the end.</summary>
    private sealed record ServeAnswer(string Store, string Address);
}
