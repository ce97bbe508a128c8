using System.Reflection;
using System.Text;
using Valvewright.Engine.Survey;
using Valvewright.Files.Measured;
using Valvewright.Files.Surveys;
using Valvewright.Files.Tests.Measured;
using Valvewright.Files.Tests.Surveys;
using Valvewright.Files.Tests.Weather;
using Valvewright.Files.Texts;
using Valvewright.Files.Weather;
using Valvewright.Tests;

namespace Valvewright.Files.Tests.Texts;

/// <summary>Whatever the readers of measurements and of weather say has words in Spanish.</summary>
public sealed class FieldSentencesAreWorded
{
    [Fact]
    public void What_is_said_of_good_bad_and_damaged_measurements()
    {
        string folder = Path.Combine(Checkout.Root, "demo", "quarry-hill");
        Site site = SurveyFiles.Read(folder).Site!;
        string good = File.ReadAllText(Path.Combine(folder, MeasuredFiles.UsualName));
        byte[] bytes = Encoding.UTF8.GetBytes(good);
        IEnumerable<string> bad = typeof(MeasuredFilesTests).GetMethods()
            .SelectMany(m => m.GetCustomAttributes<InlineDataAttribute>().SelectMany(a => a.GetData(m)))
            .Select(data => good.Replace((string)data[0], (string)data[1], StringComparison.Ordinal));
        HashSet<string> missing = [];
        foreach (string text in bad.Append(good).Append("").Append("audits: x").Concat(Enumerable.Range(0, 1500)
            .Select(seed => Encoding.UTF8.GetString(SurveyFuzz.Mutate(bytes, new Random(seed))))))
        {
            MeasuredReading reading = MeasuredFiles.Parse(text, "m", site);
            foreach (Sentence said in reading.Problems.Concat(reading.Questions).SelectMany(p => new[] { p.Message, p.Expected }))
            {
                Collect(said, missing);
            }
        }

        Assert.True(missing.Count == 0, string.Join('\n', missing.Order(StringComparer.Ordinal)));
    }

    [Fact]
    public void What_is_said_of_good_and_damaged_weather()
    {
        HashSet<string> missing = [];
        foreach (string path in Directory.GetFiles(Samples.Folder, "*", SearchOption.AllDirectories)
            .Where(f => new FileInfo(f).Length < 300_000 && !f.EndsWith(".md", StringComparison.Ordinal)).Order(StringComparer.Ordinal))
        {
            byte[] bytes = File.ReadAllBytes(path);
            foreach (int seed in Enumerable.Range(-1, 40))
            {
                byte[] damaged = seed < 0 ? bytes : SurveyFuzz.Mutate(bytes, new Random(seed));
                WeatherReading reading = WeatherFiles.ReadBytes(Path.GetFileName(path), damaged);
                foreach (Sentence said in reading.Problems.SelectMany(p => new[] { p.Message, p.Expected })
                    .Concat(reading.Notes.Select(n => n.Text)))
                {
                    Collect(said, missing);
                }
            }
        }

        Assert.True(missing.Count == 0, string.Join('\n', missing.Order(StringComparer.Ordinal)));
    }

    /// <summary>A word alone is a key of a file, and words with commas between them are units: the same in both languages.</summary>
    private static void Collect(Sentence sentence, HashSet<string> missing)
    {
        foreach (Sentence place in sentence.Places.OfType<Sentence>()) Collect(place, missing);
        bool isList = sentence.Pattern.Split(", ").All(word => !word.Contains(' ', StringComparison.Ordinal));
        if (!Sentences.IsWorded(sentence, deep: false) && !isList) missing.Add(sentence.Pattern);
    }
}
