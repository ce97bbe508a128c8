namespace Valvewright.Tests;

/// <summary>Files of the repository that are made from the code: a test compares them, and writes them when asked.</summary>
internal static class Made
{
    /// <summary>Set to 1 to have the files written.</summary>
    private const string Switch = "VALVEWRIGHT_WRITE";

    /// <summary>The file holds this text, or is made to.</summary>
    public static void Compare(string text, params string[] path)
    {
        string file = Path.Combine([Checkout.Root, .. path]);
        if (Environment.GetEnvironmentVariable(Switch) == "1") File.WriteAllText(file, text);
        Assert.True(File.ReadAllText(file) == text,
            $"{string.Join('/', path)} is not what the code makes of it: run this test once with {Switch}=1 and look at what changed");
    }
}
