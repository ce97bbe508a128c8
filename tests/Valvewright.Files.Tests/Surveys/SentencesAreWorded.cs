using System.Reflection;
using System.Text;
using System.Text.RegularExpressions;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Survey;
using Valvewright.Files.Surveys;
using Valvewright.Files.Texts;
using Valvewright.Tests;

namespace Valvewright.Files.Tests.Surveys;

/// <summary>Whatever the reader of surveys says, and the quantities and needs behind it, has words in Spanish, with the same
/// places.</summary>
public sealed partial class SentencesAreWorded
{
    private static readonly string[] Demos = [.. Directory
        .GetFiles(Path.Combine(Checkout.Root, "demo"), SurveyFiles.UsualName, SearchOption.AllDirectories).Order(StringComparer.Ordinal)];

    [Fact]
    public void What_is_said_of_good_bad_and_damaged_surveys_has_words_in_Spanish()
    {
        HashSet<string> missing = [];
        foreach (string text in Good().Concat(Bad()).Concat(Damaged()))
        {
            SurveyReading reading = SurveyFiles.ParseApart(text, "survey");
            foreach (Sentence sentence in reading.Problems.Concat(reading.Warnings).SelectMany(p => new[] { p.Message, p.Expected })
                .Concat(reading.Site?.Assumptions.SelectMany(a => new[] { a.Value, a.Why }) ?? []))
            {
                Collect(sentence, missing);
            }
        }

        Assert.True(missing.Count == 0, string.Join('\n', missing.Order(StringComparer.Ordinal)));
    }

    [Fact]
    public void What_is_said_of_quantities_has_words_in_Spanish()
    {
        HashSet<string> missing = [];
        foreach (string text in (string[])["", "1,5,2 mm", "ten", "1e999", "5 psi", "5 furlongs"])
        {
            foreach (Unit usual in Units.All)
            {
                if (QuantityText.Read(text, usual.Dimension, usual).Problem is { } problem) Collect(problem, missing);
            }
        }

        Assert.True(missing.Count == 0, string.Join('\n', missing.Order(StringComparer.Ordinal)));
    }

    [Fact]
    public void Where_cycles_come_from_has_words_in_Spanish()
    {
        HashSet<string> missing = [];
        foreach (Zone zone in Demos.SelectMany(d => SurveyFiles.Read(d).Site!.Controllers).SelectMany(c => c.Zones))
        {
            foreach (Zone each in (Zone[])[zone, zone with { LargestDepthPerCycleMm = 1 }])
            {
                CycleAndSoak cycle = CycleAndSoak.Of(each);
                Collect(cycle.CycleFrom, missing);
                Collect(cycle.SoakFrom, missing);
            }
        }

        Assert.True(missing.Count == 0, string.Join('\n', missing.Order(StringComparer.Ordinal)));
    }

    [Fact]
    public void Words_have_the_places_of_what_they_word() =>
        Assert.All(Sentences.InSpanish, pair => Assert.Equal(Places(pair.Key), Places(pair.Value)));

    [Fact]
    public void A_sentence_says_amounts_in_the_units_of_the_site_and_nests()
    {
        Sentence inner = "the soil of a lawn";
        Sentence whole = $"{inner}: {new Amount(25.4, Measure.Depth)} of {3}, {{not a place}}";
        Assert.Equal("the soil of a lawn: 25.4 mm of 3, {not a place}", whole.Text);
        Assert.Equal("the soil of a lawn: 1.00 in of 3, {not a place}", Sentences.Say(whole, Language.English, UnitSystem.UsCustomary));
        Assert.Equal("{0}: {1} of {2}, {{not a place}}", whole.Pattern);
        Assert.Equal("La superficie, 6 m", ((Sentence)$"{1}{2}").Fill("La superficie, 6 m", _ => ""));
    }

    private static IEnumerable<string> Good() => Demos.Select(File.ReadAllText).Append(SmallSite.Text)
        .Append(SmallSite.Text.Replace("units: metric", "units: us", StringComparison.Ordinal));

    /// <summary>The faults that the tests of bad surveys put in.</summary>
    private static IEnumerable<string> Bad() => typeof(BadSurveys).GetMethods()
        .SelectMany(m => m.GetCustomAttributes<InlineDataAttribute>().SelectMany(a => a.GetData(m)))
        .Where(data => data.Length >= 2 && data[0] is string && data[1] is string)
        .Select(data => SmallSite.Text.Replace((string)data[0], (string)data[1], StringComparison.Ordinal))
        .Append("").Append("  ").Append("# only\n").Append("- a\n").Append("site: a\n---\nsite: b\n").Append("site: &a x\n")
            .Append("site: *a\n")
        .Concat(BadWeather.Select(lines => SmallSite.With("supplies:", $"weather:\n  file: w.csv\n  {lines}\nsupplies:")));

    private static readonly string[] BadWeather =
    [
        "columns: x", "columns:\n    tmax: hi", "columns:\n    date: Day [d/m/y]\n    rain: x [C]\n    decimal: coma", "eto: x",
            "eto:\n    radiation floor: 3\n    clear sky: blue\n    humidity from: fog",
        "eto:\n    temperature range factor: 3\n    dew point below tmin: 99\n    assumed wind: 99 m/s\n    least wind: 12 m/s\n    " +
            "temperatures alone: x",
        .. new[] { "tmax", "tmin", "rain", "rh max", "rh min", "rh mean", "vapor pressure", "dew point", "radiation", "sunshine", "wind",
            "eto" }.Select(word => $"columns:\n    date: Day\n    {word}: x [furlong]"),
    ];

    private static IEnumerable<string> Damaged()
    {
        byte[][] samples = [.. Demos.Select(File.ReadAllBytes).Where(b => b.Length < 6000)];
        for (int seed = 0; seed < 1500; seed++)
        {
            Random random = new(seed);
            yield return Encoding.UTF8.GetString(SurveyFuzz.Mutate(samples[random.Next(samples.Length)], random));
        }
    }

    private static void Collect(Sentence sentence, HashSet<string> missing)
    {
        foreach (Sentence place in sentence.Places.OfType<Sentence>()) Collect(place, missing);
        // An amount with its unit is the same in both languages.
        if (!Sentences.IsWorded(sentence, deep: false) && !Amount().IsMatch(sentence.Pattern)) missing.Add(sentence.Pattern);
    }

    private static IEnumerable<string> Places(string pattern) =>
        Place().Matches(pattern).Select(m => m.Value).Distinct().Order(StringComparer.Ordinal);

    [GeneratedRegex(@"^-?[\d.]+ ?(mm|mm/m|mm/h|cm|m|in|in/in|in/h|ft|gpm|L/min|%|min|s)?$")]
    private static partial Regex Amount();

    [GeneratedRegex(@"\{\d\}")]
    private static partial Regex Place();
}
