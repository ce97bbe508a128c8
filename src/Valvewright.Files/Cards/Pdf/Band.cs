namespace Valvewright.Files.Cards.Pdf;

/// <summary>A strip across the page that is not divided.</summary>
/// <param name="Height">Least height, points.</param>
/// <param name="Draw">Draws it at a distance from the top, with the height it was given.</param>
/// <param name="Stretches">Whether it may be given more height when the page has room to spare.</param>
/// <param name="Fits">Whether all that is set shows in full.</param>
internal sealed record Band(double Height, Action<Sheet, double, double> Draw, bool Stretches = false, bool Fits = true)
{
    /// <summary>The strip to show again where its table goes on on another page.</summary>
    public Band? Heading { get; init; }
}
