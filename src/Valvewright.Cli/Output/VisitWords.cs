namespace Valvewright.Cli.Output;

/// <summary>Numbers of visits in words.</summary>
internal static class VisitWords
{
    /// <summary>1 visit, 4 visits.</summary>
    public static Sentence Count(int visits) => visits == 1 ? (Sentence)"1 visit" : (Sentence)$"{visits} visits";
}
