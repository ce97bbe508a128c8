namespace Valvewright.Engine.Checks;

/// <summary>Texts about what was seen.</summary>
internal static partial class CheckTexts
{
    private static (string Name, string English, string Spanish)[] OfSymptoms() => [];
}
