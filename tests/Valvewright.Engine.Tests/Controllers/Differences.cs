using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Controllers;

/// <summary>Says where two lists part.</summary>
internal static class Differences
{
    public static string First<T>(string what, ListOf<T> fast, ListOf<T> slow)
    {
        int at = 0;
        while (at < fast.Count && at < slow.Count && Equals(fast[at], slow[at]))
        {
            at++;
        }

        return $"{what} {at}: emulator {(at < fast.Count ? fast[at] : "-")}; twin {(at < slow.Count ? slow[at] : "-")}";
    }
}
