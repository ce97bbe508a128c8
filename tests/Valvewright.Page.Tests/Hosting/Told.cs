namespace Valvewright.Page.Tests.Hosting;

/// <summary>Failures that say all that is wrong, not only that something is.</summary>
internal static class Told
{
    private const int Most = 60;

    /// <summary>There is none of these.</summary>
    public static void None(IReadOnlyCollection<string> faults) =>
        Assert.True(faults.Count == 0, $"{faults.Count}:{string.Concat(faults.Take(Most).Select(f => $"\n  {f}"))}");
}
