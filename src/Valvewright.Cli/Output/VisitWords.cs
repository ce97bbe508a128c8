namespace Valvewright.Cli.Output;

/// <summary>Numbers of visits in words.</summary>
internal static class VisitWords
{
    private static readonly string[] Ordinals =
        ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth"];

    /// <summary>1 visit, 4 visits.</summary>
    public static string Count(int visits) => visits == 1 ? "1 visit" : $"{visits} visits";

    /// <summary>A fifth visit; an eighth, an eleventh visit.</summary>
    public static string Another(int number) => $"{(number is 8 or 11 ? "An" : "A")} {Ordinals[number - 1]} visit";
}
