namespace Valvewright.Cli;

internal static class EntryPoint
{
    private static int Main() => 0;
}
