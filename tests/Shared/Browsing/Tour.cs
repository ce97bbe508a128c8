namespace Valvewright.Tests.Browsing;

/// <summary>All pages there are, in the order in which one comes to them.</summary>
internal static class Tour
{
    private const string Place = "{site}";

    /// <summary>An address that leads nowhere.</summary>
    public const string NoSuchPage = "no-such-page";

    /// <summary>Addresses that need no site.</summary>
    public static readonly string[] Common = ["", "settings", "unsent", NoSuchPage];

    /// <summary>The steps of the work on a site: the last part of their addresses.</summary>
    public static readonly string[] Steps = [""];

    /// <summary>All of them, with <c>{site}</c> where a site's id belongs.</summary>
    public static IEnumerable<string> All => Common.Concat(Steps.Select(Step));

    /// <summary>The address of a step, with <c>{site}</c> where a site's id belongs.</summary>
    public static string Step(string step) => step.Length == 0 ? $"sites/{Place}" : $"sites/{Place}/{step}";

    /// <summary>An address for a site.</summary>
    public static string At(string path, Guid site) => path.Replace(Place, site.ToString(), StringComparison.Ordinal);
}
