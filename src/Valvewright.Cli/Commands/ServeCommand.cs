using System.CommandLine;
using System.Net;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Files.Problems;
using Valvewright.Server.Hosting;
using Valvewright.Server.Pairing;
using Valvewright.Server.People;

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
            { Description = "The address to listen on. One that other machines reach needs --sign-in or --code.",
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
        Option<bool> signIn = new("--sign-in")
            { Description = "People sign in, each with a role. Set up the first owner with: valvewright people add." };
        Option<string?> people = PeopleCommand.People();
        Option<string[]> proxies = new("--proxy") { Description =
            "Address of a web server in front of this one, for HTTPS. One on this machine need not be named. May be repeated.",
                HelpName = "address" };
        Option<string> workersListen = WorkCommand.Listen("--workers-listen");
        Option<string?> workersCertificate = WorkCommand.Certificate("--workers-certificate");
        Job job = new("serve", "Serve the sites of a store to this machine until stopped with Ctrl-C.",
            "valvewright serve --store sites.db", "valvewright serve --store sites.db --port 8080",
                "valvewright serve --listen 0.0.0.0 --name sites.example.org --certificate site.pem --code 7KMW4PXA",
                "valvewright serve --store sites.db --listen 0.0.0.0 --name sites.example.org --certificate site.pem --sign-in");
        foreach (Option option in new Option[] { store, port, listen, names, page, certificate, key, code, signIn, people, proxies,
            workersListen, workersCertificate })
        {
            job.Options.Add(option);
        }

        return job.Does((parse, sheet, cancel) =>
            Run(Guarded(OptionsOf(parse.GetValue(store)!, parse.GetValue(port), parse.GetValue(listen)!, parse.GetValue(names) ?? []) with
                { Page = PageOf(parse.GetValue(page)), Certificate = Certificates.Read(parse.GetValue(certificate), parse.GetValue(key)),
                    Code = CodeOf(parse.GetValue(code)), SignIn = parse.GetValue(signIn), People = parse.GetValue(people),
                        Proxies = ProxiesOf(parse.GetValue(proxies) ?? []),
                        Silo = WorkCommand.OptionsOf("--workers-listen", parse.GetValue(workersListen)!, "--workers-certificate",
                            parse.GetValue(workersCertificate)) }), sheet, cancel).GetAwaiter().GetResult());
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

    private static IPAddress[] ProxiesOf(string[] said) => [.. said.Select(text => IPAddress.TryParse(text, out IPAddress? proxy) ? proxy
        : throw new ProblemsException(new Problem("--proxy", 0, 0, text, "an address such as 192.0.2.7", null, "not an address")))];

    /// <summary>Refuses what would let anyone in, or let passwords be read on the way.</summary>
    private static ServerOptions Guarded(ServerOptions options)
    {
        if (options.IsOpen)
        {
            throw new ProblemsException(new Problem("--listen", 0, 0, options.Address.ToString(),
                $"--sign-in, after {PeopleCommand.SetUp}; or --code, for the devices of one small office", null,
                "other machines could read and change everything"));
        }

        if (options is { SignIn: true, Code: not null })
        {
            throw new ProblemsException(
                new Problem("--code", 0, 0, "--sign-in", "one of the two", null, "people who sign in need no code"));
        }

        if (options.SignIn && !IPAddress.IsLoopback(options.Address) && !options.IsSecure)
        {
            throw new ProblemsException(new Problem("--sign-in", 0, 0, options.Address.ToString(),
                "--certificate, or --proxy with the address of a web server that speaks HTTPS", null,
                "passwords would cross the network unprotected"));
        }

        return !options.SignIn || PeopleOffice.IsSetUp(options.People ?? options.Store) ? options
            : throw new ProblemsException(new Problem("--sign-in", 0, 0, "", PeopleCommand.SetUp, null, "there is no one to sign in yet"));
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
