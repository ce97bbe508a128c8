namespace Valvewright.Files.Texts;

/// <summary>The languages that pages, cards and messages are written in.</summary>
public enum Language
{
    /// <summary>English.</summary>
    English,

    /// <summary>Spanish.</summary>
    Spanish,
}
