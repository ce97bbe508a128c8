using System.CommandLine;
using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography.X509Certificates;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Files.Problems;
using Valvewright.Server.Jobs;
using Valvewright.Store;
using Valvewright.Store.Files;

namespace Valvewright.Cli.Commands;

/// <summary>Shares the long work of a server, until it is stopped.</summary>
internal static class WorkCommand
{
    public static Job Make()
    {
        Option<string> join = new("--join")
            { Description = "The PostgreSQL database of the server to help: postgresql://USER@HOST/DATABASE.", HelpName = "store",
                Required = true };
        Option<string> listen = Listen("--listen");
        Option<string?> certificate = Certificate("--certificate");
        Job job = new("work", "Help a server with its plans, seasons, proofs and nightly advice until stopped with Ctrl-C.",
            "valvewright work --join postgresql://ana@localhost/sites",
                "valvewright work --join postgresql://ana@db.example.org/sites --listen 192.0.2.8 --certificate workers.pem");
        job.Options.Add(join);
        job.Options.Add(listen);
        job.Options.Add(certificate);
        return job.Does((parse, sheet, cancel) => Run(
            parse.GetValue(join)!,
            OptionsOf("--listen", parse.GetValue(listen)!, "--certificate", parse.GetValue(certificate)), sheet, cancel)
            .GetAwaiter().GetResult());
    }

    /// <summary>The address that programs on the same database reach this one at.</summary>
    public static Option<string> Listen(string name) => new(name)
    {
        Description = "The address at which other programs that share the work reach this one.", HelpName = "address",
        DefaultValueFactory = _ => "127.0.0.1",
    };

    /// <summary>The certificate that they have in common.</summary>
    public static Option<string?> Certificate(string name) => new(name)
    {
        Description = "A certificate with its key, a PFX or PEM file. All programs that share the work use the same file.",
        HelpName = "file",
    };

    /// <summary>How this program and others on the same database reach each other.</summary>
    /// <exception cref="ProblemsException">It would let anyone in the network have work done, or can't be used.</exception>
    public static SiloOptions OptionsOf(string listenName, string listen, string certificateName, string? certificateFile)
    {
        if (!IPAddress.TryParse(listen, out IPAddress? address) || address.Equals(IPAddress.Any) || address.Equals(IPAddress.IPv6Any)
            || (certificateFile is not null && !IsOwn(address)))
        {
            throw new ProblemsException(new Problem(listenName, 0, 0, listen, "an address of this machine, such as 192.0.2.8", null,
                "other programs can't reach this address"));
        }

        X509Certificate2? certificate = Certificates.Read(certificateFile, null, certificateName);
        return certificate is not null || IPAddress.IsLoopback(address) ? new SiloOptions { Address = address, Certificate = certificate }
            : throw new ProblemsException(new Problem(listenName, 0, 0, listen, certificateName, null,
                "other machines could read and change everything"));
    }

    private static bool IsOwn(IPAddress address)
    {
        try
        {
            using TcpListener listener = new(address, 0);
            listener.Start();
            return true;
        }
        catch (SocketException)
        {
            return false;
        }
    }

    private static async Task<int> Run(string join, SiloOptions options, Sheet sheet, CancellationToken cancel)
    {
        StorePlace place = StorePlace.Of(join);
        if (place.IsFile || !place.Exists())
        {
            throw new ProblemsException(new Problem("--join", 0, 0, place.Shown,
                "a PostgreSQL database that a server has as its store", null,
                place.IsFile ? "a store in a file is worked on by its server alone" : "there is no store here"));
        }

        using SiteStore store = SiteStore.Open(join);
        await using WorkSilo silo = await WorkSilo.StartAsync(store, options, cancel: cancel);
        // Said at once: anyone who started it waits for this line.
        await Console.Out.WriteLineAsync(sheet.In($"Working for {place.Shown}; others reach this program at {silo.Address}."));
        await Console.Out.FlushAsync(CancellationToken.None);
        await Task.Delay(Timeout.InfiniteTimeSpan, cancel).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        sheet.Answer(new WorkAnswer(place.Shown, silo.Address.ToString()));
        sheet.Say("Stopped.");
        return ExitCode.Done;
    }

    /// <summary>What <c>--json</c> prints at the end.</summary>
    private sealed record WorkAnswer(string Store, string Address);
}
