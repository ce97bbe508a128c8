using Valvewright.Engine.Quantities;

namespace Valvewright.Files.Surveys.Fields;

/// <summary>The fields of a place: the site's, or a weather station's.</summary>
internal static class PlaceTable
{
    private static readonly Bilingual SeaLevel = new(
        "the weather station's, else sea level", "la de la estación meteorológica, si no, el nivel del mar");

    internal static readonly FieldGroup Location = new("location", "a location",
        new("latitude", new DegreesKind("NS"))
        {
            IsNeeded = true, Examples = ["39.74", "33.1 S"], Label = new("Latitude", "Latitud"),
            Help = new("Degrees north; south is negative.", "Grados norte; el sur es negativo."),
        },
        new("longitude", new DegreesKind("EW"))
        {
            IsNeeded = true, Examples = ["-104.99", "18.4 E"], Label = new("Longitude", "Longitud"),
            Help = new("Degrees east; west is negative.", "Grados este; el oeste es negativo."),
        },
        new("elevation", new QuantityRule("an elevation", Units.Metre, Units.Foot, -450, 6000, -100, 4500))
        {
            Examples = ["120 m", "400 ft"], Label = new("Elevation", "Altitud"), LeftOut = SeaLevel,
            Help = new("Height above sea level.", "Altura sobre el nivel del mar."),
        }) { IsOnOneLine = true };
}
