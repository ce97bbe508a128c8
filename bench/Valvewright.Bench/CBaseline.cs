using System.Diagnostics;
using System.Runtime.InteropServices;

namespace Valvewright.Bench;

/// <summary>
/// A plain C loop from bench/baseline, compiled on the spot and called in this process, so that both sides run over the same
/// arrays, under the same clock, in turns.
/// </summary>
internal sealed class CBaseline : IDisposable
{
    /// <summary>How baselines are compiled.</summary>
    public const string Flags = "-O3 -march=native -ffast-math";

    private readonly DirectoryInfo folder;
    private readonly nint library;

    private CBaseline(DirectoryInfo folder, nint library)
    {
        this.folder = folder;
        this.library = library;
    }

    /// <summary>Compiles bench/baseline/<paramref name="name"/>.c into a temporary folder and loads it; null, with the reason on standard
    /// error, where there is no gcc.</summary>
    public static CBaseline? Compile(string name)
    {
        string source = Path.Combine(Root(), "bench", "baseline", name + ".c");
        DirectoryInfo folder = Directory.CreateTempSubdirectory("valvewright-bench-");
        string output = Path.Combine(folder.FullName, name + ".so");
        ProcessStartInfo start = new("gcc", [.. Flags.Split(' '), "-shared", "-fPIC", "-o", output, source, "-lm"]);
        try
        {
            using Process gcc = Process.Start(start)!;
            gcc.WaitForExit();
            if (gcc.ExitCode == 0)
            {
                return new(folder, NativeLibrary.Load(output));
            }

            Console.Error.WriteLine($"gcc could not compile {source}; the C figure is missing.");
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Console.Error.WriteLine("There is no gcc on this machine; the C figure is missing.");
        }

        folder.Delete(recursive: true);
        return null;
    }

    /// <summary>The address of an exported function.</summary>
    public nint Function(string name) => NativeLibrary.GetExport(library, name);

    /// <inheritdoc/>
    public void Dispose()
    {
        NativeLibrary.Free(library);
        folder.Delete(recursive: true);
    }

    private static string Root()
    {
        for (DirectoryInfo? up = new(AppContext.BaseDirectory); up is not null; up = up.Parent)
        {
            if (File.Exists(Path.Combine(up.FullName, "Valvewright.slnx")))
            {
                return up.FullName;
            }
        }

        throw new InvalidOperationException("The benchmarks run from inside a checkout: the C baselines are compiled from there.");
    }
}
