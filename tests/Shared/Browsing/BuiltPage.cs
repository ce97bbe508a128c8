using System.Diagnostics;

namespace Valvewright.Tests.Browsing;

/// <summary>The page as published from this checkout.</summary>
internal static class BuiltPage
{
    private static readonly Lazy<string> Built = new(Build, LazyThreadSafetyMode.ExecutionAndPublication);

    /// <summary>Its folder; published first where its sources have changed.</summary>
    /// <exception cref="InvalidOperationException">It can't be published.</exception>
    public static string Folder => Built.Value;

    private static string Build()
    {
        using Process build = Process
            .Start(new ProcessStartInfo(Path.Combine(Checkout.Root, "build-page"), ["--if-changed"]) { RedirectStandardError = true })!;
        string said = build.StandardError.ReadToEnd();
        build.WaitForExit();
        return build.ExitCode == 0 ? Path.Combine(Checkout.Root, ".build", "page", "wwwroot") : throw new InvalidOperationException(
            $"The page can't be published: {said}");
    }
}
