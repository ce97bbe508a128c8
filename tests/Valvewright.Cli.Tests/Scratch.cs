using Valvewright.Tests;

namespace Valvewright.Cli.Tests;

/// <summary>A folder for one test, gone afterwards.</summary>
internal sealed class Scratch : IDisposable
{
    /// <summary>The folder.</summary>
    public string Folder { get; } = Directory.CreateTempSubdirectory("valvewright-test-").FullName;

    /// <summary>A path inside it.</summary>
    public string this[string name] => Path.Combine(Folder, name);

    /// <summary>A site of the demos.</summary>
    public static string Demo(string name) => Path.Combine(Checkout.Root, "demo", name);

    /// <summary>The site file of a demo, changed and put here; it still finds its weather.</summary>
    public string ChangedDemo(string name, Func<string, string> change)
    {
        string file = this["site.yaml"];
        string reference = Path.Combine(Checkout.Root, "reference").Replace('\\', '/');
        string text = File.ReadAllText(Path.Combine(Demo(name), "site.yaml"))
            .Replace("../../reference", reference, StringComparison.Ordinal);
        File.WriteAllText(file, change(text));
        return file;
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
