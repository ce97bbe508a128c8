using Valvewright.Tests;

namespace Valvewright.Cli.Tests.Whole;

/// <summary>What README.md and docs/ show of the command is what it prints: each block that begins with <c>$ ./valvewright</c> stands in an
/// approved file.</summary>
public sealed class SampleTests
{
    private const string Prompt = "    $ ./valvewright ";
    private static readonly string Folder = Path.Combine(Checkout.Root, "tests", "Valvewright.Cli.Tests", "Whole", "Approved");

    public static TheoryData<string, string> Samples()
    {
        TheoryData<string, string> data = [];
        foreach (string page in Directory.GetFiles(Path.Combine(Checkout.Root, "docs"), "*.md")
            .Append(Path.Combine(Checkout.Root, "README.md")).Order(StringComparer.Ordinal))
        {
            foreach (string line in File.ReadLines(page).Where(l => l.StartsWith(Prompt, StringComparison.Ordinal)))
            {
                data.Add(Path.GetRelativePath(Checkout.Root, page), line[Prompt.Length..]);
            }
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void A_sample_is_what_the_command_prints(string page, string command)
    {
        string[] sample = [.. File.ReadLines(Path.Combine(Checkout.Root, page)).SkipWhile(l => l != Prompt + command).Skip(1)
            .TakeWhile(l => l.Length == 0 || l.StartsWith("    ", StringComparison.Ordinal)).Select(l => l.Length == 0 ? "" : l[4..])];
        string[] printed = Directory.GetFiles(Folder, "*.txt").Select(File.ReadAllLines).FirstOrDefault(
            f => f[0] == $"$ valvewright {command}")
            ?? throw new InvalidOperationException($"No approved output begins with: $ valvewright {command}");
        int at = 1;
        bool isAfterGap = false;
        foreach (string line in sample.Reverse().SkipWhile(l => l.Length == 0).Reverse())
        {
            if (line.Trim() == "...")
            {
                isAfterGap = true;
                continue;
            }

            int found = isAfterGap ? Array.IndexOf(printed, line, at) : printed.ElementAtOrDefault(at) == line ? at : -1;
            Assert.True(found >= 0, $"{page} shows a line that is not printed there: {line}");
            (at, isAfterGap) = (found + 1, false);
        }
    }
}
