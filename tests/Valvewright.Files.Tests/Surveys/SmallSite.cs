namespace Valvewright.Files.Tests.Surveys;

/// <summary>A small site without a fault, for tests to put one into.</summary>
internal static class SmallSite
{
    public const string Text = """
        site: Test green
        location: { latitude: 47.43, longitude: 8.52, elevation: 444 m }
        time zone: Europe/Zurich
        units: metric
        clock: 24 hours
        supplies:
          - name: Main
            flow: 40 L/min
            pressure: 300 kPa
            permitted:
              hours: 22:00-06:00
        controllers:
          - name: Green
            profile: 4 stations, 2 programs, 4 starts
            supply: Main
            zones:
              - station: 1
                name: Lawn
                area: 80 m2
                soil: loam
                slope: 2 %
                plants: cool-season turf
                sprinklers: { kind: rotor, rate: 12 mm/h, uniformity: 70 % }
              - station: 2
                name: Hedge
                area: 30 m2
                soil: { sand: 40 %, clay: 20 %, organic matter: 2 % }
                slope: 2 %
                plants: { kind: shrubs, stage: establishing, since: 2026-03-01 }
                sprinklers: { kind: drip, rate: 7 mm/h }
        """;

    /// <summary>The text with one piece replaced; the piece must stand there once.</summary>
    public static string With(string piece, string other)
    {
        Assert.Equal(2, Text.Split(piece).Length);
        return Text.Replace(piece, other, StringComparison.Ordinal);
    }
}
