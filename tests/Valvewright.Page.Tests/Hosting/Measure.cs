using System.Collections.Concurrent;

namespace Valvewright.Page.Tests.Hosting;

/// <summary>Scripts of the tests, which run in the page.</summary>
internal static class Measure
{
    private static readonly ConcurrentDictionary<string, string> Texts = new();

    /// <summary>The text of a script.</summary>
    public static string Text(string name) => Texts.GetOrAdd(name, n =>
    {
        using StreamReader reader =
            new(typeof(Measure).Assembly.GetManifestResourceStream(n) ?? throw new ArgumentException($"There is no {n}."));
        return reader.ReadToEnd();
    });
}
