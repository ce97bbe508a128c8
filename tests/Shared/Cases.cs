namespace Valvewright.Tests;

/// <summary>How many drawn cases a test takes: as many as its name says, times VALVEWRIGHT_CASES where that is set.</summary>
internal static class Cases
{
    private static readonly int Factor =
        int.TryParse(Environment.GetEnvironmentVariable("VALVEWRIGHT_CASES"), out int times) && times > 0 ? times : 1;

    public static int Of(int usual) => usual * Factor;
}
