using Valvewright.Engine.Controllers;

namespace Valvewright.Tests.Twin;

/// <summary>Looked up in what a world was told. Plain loops: the benchmark times the twin as well.</summary>
internal static class Told
{
    /// <summary>The days left that a program was said to have; null where nothing was said.</summary>
    public static int? DaysLeft(IReadOnlyList<DaysLeft> told, char program)
    {
        foreach (DaysLeft left in told)
        {
            if (left.Program == program)
            {
                return left.Days;
            }
        }

        return null;
    }
}
