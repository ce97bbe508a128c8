using System.Diagnostics;
using Npgsql;

namespace Valvewright.Tests.Databases;

/// <summary>
/// A PostgreSQL server of the tests' own, in a folder of its own, heard on a socket in it and nowhere else. It ends with the program that
/// started it, however that ends.
/// </summary>
internal sealed class PostgresCluster : IDisposable
{
    /// <summary>Waits at its input, which the system closes when the tests end.</summary>
    private const string Script = """
        set -e
        folder=$(mktemp -d -t valvewright-pg-XXXXXX)
        trap '"$0/pg_ctl" -D "$folder/data" -m immediate stop >/dev/null 2>&1 || true; rm -rf "$folder"' EXIT
        heard="-c listen_addresses= -c unix_socket_directories=$folder"
        start() { "$0/pg_ctl" -D "$folder/data" -w -l "$folder/log" -o "$heard" start >/dev/null; }
        "$0/initdb" -D "$folder/data" -U valvewright -A trust -E UTF8 --locale=C.UTF-8 --no-sync >/dev/null
        start
        echo "$folder"
        while read -r word; do
          case $word in
            kill) "$0/pg_ctl" -D "$folder/data" -m immediate -w stop >/dev/null 2>&1 ;;
            start) start ;;
          esac
          echo done
        done
        """;

    private static readonly Lazy<PostgresCluster> OfAllTests = new(() => new PostgresCluster());

    private readonly Process process;
    private readonly string folder;
    private int databases;

    public PostgresCluster()
    {
        string programs = Programs();
        // PostgreSQL does not run as root.
        string[] command = Environment.UserName == "root"
            ? ["runuser", "-u", "postgres", "--", "bash", "-c", Script, programs] : ["bash", "-c", Script, programs];
        process = Process.Start(new ProcessStartInfo(command[0], command[1..])
        {
            RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = "/",
        })!;
        folder = process.StandardOutput.ReadLine() ?? throw new InvalidOperationException(
            $"The tests' PostgreSQL did not start: {process.StandardError.ReadToEnd()}");
    }

    /// <summary>One that all tests of a program share; none of them kills it.</summary>
    public static PostgresCluster Shared => OfAllTests.Value;

    /// <summary>Makes a new, empty database.</summary>
    /// <returns>Its address, as a person would give it to a command.</returns>
    public string Database(string name = "sites", string with = "")
    {
        string made = $"{name}_{Interlocked.Increment(ref databases)}";
        using NpgsqlConnection connection = Open("postgres");
        using NpgsqlCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Names are the tests' own.
        command.CommandText = $"CREATE DATABASE {made} {with}";
#pragma warning restore CA2100
        command.ExecuteNonQuery();
        return $"postgresql://valvewright@/{made}?host={folder}";
    }

    /// <summary>Ends the server at once, as a power cut would, in the middle of whatever it does.</summary>
    public void Kill() => Tell("kill");

    /// <summary>Starts it again; it returns when connections are let in.</summary>
    public void Start() => Tell("start");

    public void Dispose()
    {
        process.StandardInput.Close();
        process.WaitForExit();
        process.Dispose();
    }

    /// <summary>An own connection to a database.</summary>
    public NpgsqlConnection Open(string database)
    {
        NpgsqlConnection connection = new($"Host={folder};Username=valvewright;Database={database};Pooling=false;Search Path=valvewright");
        connection.Open();
        return connection;
    }

    private void Tell(string word)
    {
        process.StandardInput.WriteLine(word);
        string? answer = process.StandardOutput.ReadLine();
        if (answer != "done")
        {
            throw new InvalidOperationException($"PostgreSQL did not {word}: {answer}");
        }
    }

    private static string Programs()
    {
        string[] found =
        [
            .. (Environment.GetEnvironmentVariable("PATH") ?? "").Split(':'),
            .. Directory.Exists("/usr/lib/postgresql") ? Directory.GetDirectories("/usr/lib/postgresql")
                .OrderByDescending(d => int.TryParse(Path.GetFileName(d), out int version) ? version : 0).Select(d => d + "/bin") : [],
        ];
        return found.FirstOrDefault(f => File.Exists(Path.Combine(f, "initdb"))) ?? throw new InvalidOperationException(
            "The store's tests need PostgreSQL's programs (initdb, pg_ctl): ./test installs Debian's 'postgresql'.");
    }
}
