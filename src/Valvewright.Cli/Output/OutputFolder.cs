namespace Valvewright.Cli.Output;

/// <summary>Where results go when nobody says where.</summary>
internal static class OutputFolder
{
    /// <summary><c>out</c> beside a site file.</summary>
    public static string Beside(string siteFile) => Path.Combine(Path.GetDirectoryName(siteFile) is { Length: > 0 } folder ? folder : ".", "out");
}
