namespace Valvewright.App.Frame;

/// <summary>The way through the work on a site, in the order in which it is done.</summary>
public static class Way
{
    /// <summary>The last part of each step's address; the first is the site itself.</summary>
    public static readonly string[] Steps = ["", "survey", "audit", "needs", "plan", "proof", "cards", "year", "timeline", "reading",
        "trace", "visits", "history"];

    /// <summary>The address of a step.</summary>
    public static string To(Guid site, string step) => step.Length == 0 ? $"sites/{site}" : $"sites/{site}/{step}";

    /// <summary><c>page</c> where the step is the one shown; null elsewhere.</summary>
    /// <param name="address">The address shown, below the page's.</param>
    /// <param name="site">The site.</param>
    /// <param name="step">The step.</param>
    public static string? CurrentOf(string address, Guid site, string step)
    {
        string here = address.Split('?', '#')[0].TrimEnd('/');
        string there = To(site, step);
        return here == there || (step.Length > 0 && here.StartsWith(there + "/", StringComparison.Ordinal)) ? "page" : null;
    }
}
