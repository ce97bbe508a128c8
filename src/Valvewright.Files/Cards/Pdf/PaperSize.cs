namespace Valvewright.Files.Cards.Pdf;

/// <summary>The sheets that a card is made for, upright.</summary>
public enum PaperSize
{
    /// <summary>210 x 297 mm (ISO 216).</summary>
    A4,

    /// <summary>8.5 x 11 in (ANSI/ASME Y14.1).</summary>
    Letter,
}
