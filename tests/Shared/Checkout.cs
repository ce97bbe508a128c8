namespace Valvewright.Tests;

/// <summary>Where the source tree is.</summary>
internal static class Checkout
{
    /// <summary>The folder that holds the solution.</summary>
    public static string Root { get; } = Find();

    private static string Find()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Valvewright.slnx")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException("The tests do not run from inside a checkout.");
    }
}
