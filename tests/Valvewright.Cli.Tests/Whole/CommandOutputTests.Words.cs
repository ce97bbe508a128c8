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

    /// <summary>Lines that cannot be understood, or ask for what cannot be.</summary>
    [Theory]
    [InlineData("timeline demo/quarry-hill --hold soon")]
    [InlineData("timeline demo/quarry-hill --hold 2026-07-01,900")]
    [InlineData("timeline demo/quarry-hill --off 2026-07-05..2026-07-01")]
    [InlineData("timeline demo/quarry-hill --off never")]
    [InlineData("timeline demo/quarry-hill --clock noon")]
    [InlineData("timeline demo/quarry-hill --percent 2026-07-01,lots")]
    [InlineData("timeline demo/quarry-hill --manual 2026-07-01,99,10 --manual 2026-07-01,H --manual late")]
    [InlineData("timeline demo/quarry-hill --rain 2026-07-01,wet --sensor 6mm")]
    [InlineData("timeline demo/quarry-hill --no-power x --drift 99999 --days-left 7")]
    [InlineData("timeline demo/quarry-hill --water-in July")]
    [InlineData("timeline demo/quarry-hill --next-station 77")]
    [InlineData("timeline demo/quarry-hill --from 2026-04-01 --to 2026-03-01")]
    [InlineData("timeline demo/quarry-hill --from tomorrow")]
    [InlineData("timeline demo/quarry-hill --next-station x")]
    [InlineData("timeline demo/quarry-hill --form 2026-07-01")]
    [InlineData("timeline")]
    [InlineData("timeline demo/quarry-hill more")]
    [InlineData("timeline demo/quarry-hill --plan")]
    [InlineData("plan demo/quarry-hill --visits 40")]
    [InlineData("plan demo/quarry-hill --winter-off November")]
    [InlineData("plan demo/quarry-hill --changes few")]
    [InlineData("season demo/quarry-hill --only-on someday --not-in August --agreed May")]
    [InlineData("season demo/quarry-hill --most-unmet 300 --unmet-weight 99")]
    [InlineData("card demo/quarry-hill --paper a5")]
    [InlineData("card demo/quarry-hill --controller Gaet")]
    [InlineData("check demo/quarry-hill nowhere.txt")]
    [InlineData("check demo/quarry-hill --at noon")]
    [InlineData("trace demo/quarry-hill --answers nowhere.txt --complaint nothing")]
    [InlineData("plann demo/quarry-hill")]
    public async Task No_English_word_is_left_of_a_refused_line(string line)
    {
        Command.Outcome spanish = await demo.Run("--language es " + line);
        Assert.NotEqual(0, spanish.ExitCode);
        string said = FoundInLine().Replace(spanish.Error, "").Trim();
        Assert.NotEmpty(said);
        Assert.Empty(said.Split('\n').Where(l => English().IsMatch(l) || MoreEnglish().IsMatch(l) || ParsersEnglish().IsMatch(l)));
    }

    public static TheoryData<string> Helps() => [.. Cli.Commands.Jobs.All().Select(j => $"{j.Name} --help").Prepend("--help")];

    [Theory]
    [MemberData(nameof(Helps))]
    public async Task No_English_word_is_left_of_help_in_Spanish(string line)
    {
        Command.Outcome help = await demo.Run(line + " --language es");
        Assert.Equal(0, help.ExitCode);
        Assert.StartsWith("Descripción:", help.Output, StringComparison.Ordinal);
        string[] lines = help.Output[..help.Output.IndexOf("Ejemplo", StringComparison.Ordinal)].Split('\n');
        Assert.All(lines, l => Assert.True(l.Length <= 80, l));
        Assert.Empty(lines.Select(l => Words().Replace(l, "")).Where(l =>
            English().IsMatch(l) || MoreEnglish().IsMatch(l) || ParsersEnglish().IsMatch(l)));
    }

    /// <summary>Only the option decides, wherever it is given.</summary>
    [Theory]
    [InlineData("--language es plan --help", "Descripción:")]
    [InlineData("plan --help", "Description:")]
    [InlineData("--language es plan --language en --help", "Description:")]
    [InlineData("plan --help --language fr", "Description:")]
    public async Task The_option_decides_the_language(string line, string begin) =>
        Assert.StartsWith(begin, (await demo.Run(line)).Output, StringComparison.Ordinal);

    /// <summary>Whoever starts the server waits for these lines: they are not kept back until the end.</summary>
    [Fact]
    public async Task The_server_speaks_Spanish()
    {
        using Scratch scratch = new();
        Command.Outcome served = await Command.Interrupt(
            ["serve", "--store", scratch["s.db"], "--port", "0", "--language", "es"], whenOutputSays: "http://");
        Assert.Contains("http://127.0.0.1", served.Output, StringComparison.Ordinal);
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

    /// <summary>What was typed: it is repeated as it is.</summary>
    [GeneratedRegex(@"'[^']*'|(?m)^\s+(leído|parecido):.*$|Parecido: \S+|--[a-z-]+|(?m)^valvewright: |Vea:.*|shows|" +
        @"\S+\.(json|txt)|New lawn by the gate")]
    private static partial Regex FoundInLine();

    /// <summary>Words to type, which are the same in every language.</summary>
    [GeneratedRegex(@"(?m)^  (valvewright )?[a-z]+(?= )|--[a-z-]+|valvewright [a-z]+|'[^']*'|" +
        @"\w+\.(json|yaml|html|pdf)|\([a-záéíóúñ,. ]+\)|shows|mon, tue, wed, thu, fri, sat, sun|" +
        @"(vapor pressure|dew point|humidity range|highest humidity|mean humidity|date|year|month|day of year|day|rain|rh max|rh min|" +
        @"rh mean|radiation|sunshine|wind|missing)(?= |,)|\S*(wind=|=Max)\S*|carpeta out|: out|Max temp|open-meteo|[a-z]+-[a-z-]+")]
    private static partial Regex Words();

    [GeneratedRegex(
        @"\b(required|option|argument|command|Cannot|Try|Nearest|Show|help|print|write|default|file|folder|name|number|station)\b")]
    private static partial Regex ParsersEnglish();

    /// <summary>Words that are never Spanish, found once the names are taken away.</summary>
    [GeneratedRegex(@"\b(at|for|not|has|have|by|than|only|change|measured|assumed|used|read|battery|flow|days?|leak|rate|" +
        @"low|high|this|that|which|when|reading|file|controller|supply|weather|wind|rain|value|values|missing|expected|found)\b")]
    private static partial Regex MoreEnglish();

    /// <summary>Words that are never part of a name and never Spanish.</summary>
    [GeneratedRegex(@"\b(the(?! gate)|of|and|with|from|per|is|are|was|every|on|to|year|water|zone|plan's)\b")]
    private static partial Regex English();
}
