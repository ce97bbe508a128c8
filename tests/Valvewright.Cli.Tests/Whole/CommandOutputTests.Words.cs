using System.Text.RegularExpressions;

namespace Valvewright.Cli.Tests.Whole;

public sealed partial class CommandOutputTests
{
    private const int LinesOfAScreen = 24;

    [Fact]
    public void The_first_screen_of_a_plan_fits()
    {
        string[] lines = demo.Plan.Output.Split('\n');
        int rest = Array.FindIndex(lines, 2, l => l.Length > 0 && l.All(c => c == '-')) - 1;
        Assert.Equal("Programs", lines[rest]);
        Assert.InRange(rest, 8, LinesOfAScreen);
        string screen = string.Join('\n', lines[..rest]);
        Assert.All(new[] { "Plan passes.", "Programs", "Water", "Use met", "Visits", "Next: print" }, word =>
            Assert.Contains(word, screen, StringComparison.Ordinal));
    }

    [Fact]
    public void Visits_are_counted_in_one_way()
    {
        Match visits = Yearly().Match(demo.Plan.Output.ReplaceLineEndings(" ").Replace("  ", "", StringComparison.Ordinal));
        Assert.True(visits.Success);
        int counted = int.Parse(visits.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture);
        Assert.Equal(counted, visits.Groups[2].Value.Split(',').Length);
        Assert.Contains($"this plan, {counted} visits", demo.Plan.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_rule_is_broken_on_no_day_or_on_some() =>
        Assert.Contains("none broken on any day from", demo.Plan.Output.ReplaceLineEndings(" "), StringComparison.Ordinal);

    [Theory]
    [InlineData("prove demo/quarry-hill")]
    [InlineData("timeline demo/quarry-hill --from 2026-04-01 --to 2026-04-03")]
    [InlineData("timeline demo/quarry-hill --from 2026-04-01 --next-station 3")]
    [InlineData("timeline demo/quarry-hill --water-in 2026-07")]
    [InlineData("season demo/quarry-hill --today 2019-06-14 --so-far reference/weather/nasapower_lankaran-hills.csv --percent Gate=80")]
    [InlineData("prove demo/quarry-hill --plan missing.json")]
    public async Task No_English_line_is_left_in_Spanish(string line)
    {
        Command.Outcome spanish = await demo.Run(line + " --language es");
        string[] lines = $"{spanish.Output}\n{spanish.Error}".Split('\n');
        Assert.True(lines.Length > 2);
        Assert.Empty(lines.Where(l => English().IsMatch(l)));
        Assert.DoesNotMatch(@"\d%", string.Join('\n', lines));
    }

    /// <summary>The commands of the field: as measured, and with everything wrong that a measurement can show.</summary>
    [Theory]
    [InlineData("audit demo/quarry-hill --from 2026-04-01 --out audited")]
    [InlineData("audit demo/quarry-hill --no-plan --measured troubled.yaml")]
    [InlineData("audit demo/quarry-hill --no-plan --measured none.yaml")]
    [InlineData("audit demo/quarry-hill --no-plan --measured doubtful.yaml")]
    [InlineData("audit demo/quarry-hill --no-plan --measured wrong.yaml")]
    [InlineData("battery demo/quarry-hill")]
    [InlineData("battery demo/quarry-hill --measured troubled.yaml")]
    [InlineData("battery demo/quarry-hill --measured none.yaml")]
    [InlineData("battery demo/quarry-hill --measured doubtful.yaml")]
    [InlineData("meter demo/quarry-hill")]
    [InlineData("meter demo/quarry-hill --measured troubled.yaml")]
    [InlineData("meter demo/quarry-hill --measured none.yaml")]
    [InlineData("pressure demo/quarry-hill")]
    [InlineData("pressure demo/quarry-hill --measured troubled.yaml")]
    [InlineData("pressure demo/quarry-hill --measured none.yaml")]
    [InlineData("pressure demo/quarry-hill --measured doubtful.yaml")]
    [InlineData("budget demo/quarry-hill")]
    [InlineData("budget demo/thin-creek --use residential")]
    [InlineData("budget demo/quarry-hill --special-area 9999999")]
    [InlineData("profiles")]
    [InlineData("et reference/weather/azmet_06_maricopa.csv --place 33,-112,361 --from 2012-06-01 --to 2012-06-14")]
    [InlineData("et reference/weather/azmet_06_maricopa.csv --place 33,-112,361 --wind-height 3 --units us")]
    [InlineData("et reference/weather/azmet_06_maricopa.csv --place 33,-112,361 --preview")]
    [InlineData("et reference/weather/nasapower_lankaran-hills.csv --place 33,-112,361")]
    [InlineData("et reference/weather/ghcnd_ottawa-cda.csv --place 45.4,-75.7,79")]
    [InlineData("et reference/weather/knmi_260_debilt.csv --radiation-floor 3 --place 361,33")]
    [InlineData("et reading.txt")]
    [InlineData("et nowhere.csv")]
    [InlineData("et")]
    [InlineData("serve --store sites.db --port 99999")]
    [InlineData("serve --store sites.db --listen here")]
    [InlineData("serve --store sites.db --code short")]
    [InlineData("serve --store sites.db --page demo")]
    public async Task No_English_word_is_left_in_Spanish_of_what_was_measured(string line)
    {
        await demo.Write("troubled.yaml", Troubled);
        await demo.Write("none.yaml", "units: metric\n");
        await demo.Write("doubtful.yaml", Measured.Replace("opening: 90 cm2", "opening: 40 cm2", StringComparison.Ordinal)
            .Replace("volts: 8.7", "volts: 14", StringComparison.Ordinal)
            .Replace("L/min, pressure: 262 kPa", "L/min, pressure: 299 kPa", StringComparison.Ordinal));
        await demo.Write("wrong.yaml", Measured.Replace("station: 2", "station: 7", StringComparison.Ordinal)
            .Replace("size: 1,", "size: 9,", StringComparison.Ordinal).Replace("gauge: 18", "gauge: 17", StringComparison.Ordinal));
        Command.Outcome spanish = await demo.Run(line + " --language es");
        string[] lines = Names().Replace($"{spanish.Output}\n{spanish.Error}", "").Split('\n');
        Assert.True(lines.Length > 2);
        Assert.Empty(lines.Where(l => English().IsMatch(l) || MoreEnglish().IsMatch(l)));
        Assert.DoesNotMatch(@"\d%", string.Join('\n', lines));
    }

    /// <summary>Whoever starts the server waits for these lines: they are not kept back until the end.</summary>
    [Fact]
    public async Task The_server_speaks_Spanish()
    {
        using Scratch scratch = new();
        Command.Outcome served = await Command.Interrupt(
            ["serve", "--store", scratch["s.db"], "--port", "0", "--listen", "0.0.0.0", "--language", "es"], "--code");
        Assert.Contains("Otras máquinas", served.Error, StringComparison.Ordinal);
        Assert.DoesNotMatch(English(), served.Error + served.Output);
    }

    private static string Measured => File.ReadAllText(Path.Combine(Valvewright.Tests.Checkout.Root, "demo/quarry-hill/measured.yaml"));

    /// <summary>Few cans in the wind, a flow test that leaves too little, a tank that runs short, a pump that starts too often, a coil that
    /// is open, a leak.</summary>
    private static string Troubled => Measured
        .Replace("[28, 31, 26, 22, 18, 12, 25, 29, 27, 24, 16, 11, 23, 27, 30, 25, 19, 13, 20, 22, 26, 21, 17, 10]",
            "[28, 31, 26, 22, 18, 12, 25, 29, 27, 24, 16]", StringComparison.Ordinal)
        .Replace("    grid: { columns: 6, along: 2 m, between: 3 m }\n", "", StringComparison.Ordinal)
        .Replace("wind: 4 km/h", "wind: 14 km/h", StringComparison.Ordinal)
        .Replace("    meter: 302 L\n", "", StringComparison.Ordinal)
        .Replace("flow: 24 L/min, pressure: 238", "flow: 20 L/min, pressure: 198", StringComparison.Ordinal)
        .Replace("volume: 9000 L, refill: 8 L/min", "volume: 1500 L, refill: 1 L/min", StringComparison.Ordinal)
        .Replace("least: 500 L }", "least: 500 L }\n    pump: { starts per hour: 1, runs on: 0 min }", StringComparison.Ordinal)
        .Replace("kind: 9 V alkaline, since: 2026-03-10", "kind: AA lithium x 4, since: 2026-03-10, volts: 6.1", StringComparison.Ordinal)
        .Replace("ohms: 10.1", "ohms: open", StringComparison.Ordinal)
        .Replace("      - { on: 2026-06-15, shows: 1318.77 m3 }", "      - { on: 2026-06-15, shows: 1258.77 m3 }\n"
            + "      - { on: 2026-07-15, shows: 1458.77 m3 }\n      - { on: 2026-08-15, shows: 1758.77 m3 }\n", StringComparison.Ordinal);

    [GeneratedRegex(@"Visits\s*(\d+) per year \(([^)]*)\)")]
    private static partial Regex Yearly();

    /// <summary>Names that people and agencies gave, options, and what was found in a file.</summary>
    [GeneratedRegex(@"New lawn by the\s+gate|'[^']*'|(?m)^[^\s:]*( [^\s:]*)*/[^\s:]*( test)?:|" +
        @"\S+\.(txt|csv|yaml|md)|(?m)^\s+leído:.*$|--[a-z-]+|https?://\S+|NASA POWER: obtained[^.]*\.")]
    private static partial Regex Names();

    /// <summary>Words that are never Spanish, found once the names are taken away.</summary>
    [GeneratedRegex(@"\b(at|for|not|has|have|by|than|only|change|measured|assumed|used|read|battery|flow|days?|leak|rate|" +
        @"low|high|this|that|which|when|reading|file|controller|supply|weather|wind|rain|value|values|missing|expected|found)\b")]
    private static partial Regex MoreEnglish();

    /// <summary>Words that are never part of a name and never Spanish.</summary>
    [GeneratedRegex(@"\b(the(?! gate)|of|and|with|from|per|is|are|was|every|on|to|year|water|zone|plan's)\b")]
    private static partial Regex English();
}
