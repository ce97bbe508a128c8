using System.Runtime.CompilerServices;

namespace Valvewright.Tests;

/// <summary>Whole output that somebody has read and approved: <c>Approved/class.test.txt</c> next to the test.</summary>
internal static class Approval
{
    /// <summary>
    /// Compares with the approved file; where they differ, writes what came next to it, to be read and moved over it. With
    /// <c>VALVEWRIGHT_APPROVE=all</c> it is written over the approved file, to be read as a difference in version control.
    /// </summary>
    /// <param name="came">The output.</param>
    /// <param name="part">Tells several outputs of one test apart.</param>
    /// <param name="file">Given by the compiler.</param>
    /// <param name="test">Given by the compiler.</param>
    public static void Check(string came, string? part = null, [CallerFilePath] string file = "", [CallerMemberName] string test = "")
    {
        string folder = Path.Combine(
            Path.GetDirectoryName(
                file.StartsWith("/_/", StringComparison.Ordinal) ? Path.Combine(Checkout.Root, file[3..]) : file)!, "Approved");
        string approved = Path.Combine(folder, $"{Path.GetFileNameWithoutExtension(file)}.{test}{(part is null ? "" : "." + part)}.txt");
        string aside = Path.ChangeExtension(approved, ".came.txt");
        string[] expected = File.Exists(approved) ? File.ReadAllText(approved).Split('\n') : [], lines = came.Split('\n');
        if (expected.SequenceEqual(lines))
        {
            File.Delete(aside);
            return;
        }

        Directory.CreateDirectory(folder);
        if (Environment.GetEnvironmentVariable("VALVEWRIGHT_APPROVE") == "all")
        {
            File.WriteAllText(approved, came);
            return;
        }

        File.WriteAllText(aside, came);
        int line = expected.Zip(lines).TakeWhile(p => p.First == p.Second).Count();
        Assert.Fail($"""
            Line {line + 1} is not as approved.
              approved: {expected.ElementAtOrDefault(line) ?? "(nothing)"}
              came:     {lines.ElementAtOrDefault(line) ?? "(nothing)"}
            If what came is right: mv '{aside}' '{approved}'
            """);
    }
}
