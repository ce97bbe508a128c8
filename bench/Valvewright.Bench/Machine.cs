using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Valvewright.Bench;

/// <summary>What a figure was measured on.</summary>
internal static class Machine
{
    /// <summary>Processor, runtime and vector width, in one line.</summary>
    public static string Describe()
    {
        int bits = Vector512.IsHardwareAccelerated ? 512 : Vector256.IsHardwareAccelerated ? 256 : 128;
        return $"{Processor()}, {RuntimeInformation.FrameworkDescription} {RuntimeInformation.ProcessArchitecture}, {bits}-bit vectors, one thread";
    }

    private static string Processor()
    {
        const string Info = "/proc/cpuinfo";
        string? line = File.Exists(Info) ? File.ReadLines(Info).FirstOrDefault(
            l => l.StartsWith("model name", StringComparison.Ordinal)) : null;
        return line is null ? "unknown processor" : line[(line.IndexOf(':', StringComparison.Ordinal) + 1)..].Trim();
    }
}
