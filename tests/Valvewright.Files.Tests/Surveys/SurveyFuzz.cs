using System.Text;
using Valvewright.Engine.Balance;
using Valvewright.Files.Surveys;
using Valvewright.Files.Surveys.Yaml;
using Valvewright.Tests;

namespace Valvewright.Files.Tests.Surveys;

/// <summary>Random mutations of the demo sites, with fixed seeds: each is a site or has located problems, and nothing is thrown.</summary>
public sealed class SurveyFuzz
{
    private const int Inputs = 20_000;

    private static readonly string[] Scraps =
    [
        "NaN", "-1", "1e309", "''", "[", "]", "{", "}", ": ", "- ", "\t", "\n", "&a ", "*a", "|", ">", "#", "\0", "\u2028", "ß", "🌱",
            "null", "~", "yes",
        "0", "99999999999999999999", "1/0", "2026-02-30", "24:00-24:00", "in", "%", "site:", "zones:", "!!int ", "---\n", "...\n",
            "\r", "\"", "'",
    ];

    [Fact]
    public void Twenty_thousand_mutated_sites_end_without_an_unhandled_exception()
    {
        string[] files = [.. Directory.GetFiles(Path.Combine(Checkout.Root, "demo"), SurveyFiles.UsualName, SearchOption.AllDirectories)
            .Order(StringComparer.Ordinal)];
        byte[][] samples = [.. files.Select(File.ReadAllBytes)];
        // The dozen-controller site is many times the size of the others and holds nothing that they do not.
        int[] small = [.. Enumerable.Range(0, files.Length).Where(i => samples[i].Length < 6000)];
        int read = 0;
        for (int seed = 0; seed < Inputs; seed++)
        {
            Random random = new(seed);
            int which = seed % 100 == 0 ? random.Next(files.Length) : small[random.Next(small.Length)];
            byte[] bytes = Mutate(samples[which], random);
            SurveyReading reading;
            try
            {
                Findings findings = new(files[which]);
                string? text = SurveyText.Decode(bytes, findings);
                reading = text is null ? findings.Reading(null) : SurveyFiles.Parse(text, files[which]);
            }
            catch (Exception error)
            {
                throw new InvalidOperationException($"Seed {seed}: {error.Message}\n{Encoding.UTF8.GetString(bytes)}", error);
            }

            Assert.True(reading.Site is not null ^ reading.Problems.Count > 0, $"Seed {seed}: neither a site nor a problem, or both");
            if (reading.Site is { } site)
            {
                read++;
                Assert.All(site.Controllers.SelectMany(c => c.Zones), zone =>
                {
                    Assert.True(RootZone.Of(zone).ReadilyMm > 0, $"Seed {seed}: a root zone without water");
                    Assert.True(double.IsFinite(zone.Emission.PrecipitationRateMmPerHour) && zone.Emission.PrecipitationRateMmPerHour > 0,
                        $"Seed {seed}: no rate");
                    Assert.True(double.IsFinite(zone.Emission.FlowLpm) && zone.Emission.FlowLpm > 0, $"Seed {seed}: no flow");
                });
            }
        }

        Assert.InRange(read, Inputs / 20, Inputs * 19 / 20);
    }

    internal static byte[] Mutate(byte[] sample, Random random)
    {
        List<byte> bytes = [.. sample];
        for (int times = random.Next(1, 4); times > 0 && bytes.Count > 8; times--)
        {
            int at = random.Next(bytes.Count);
            int length = Math.Min(random.Next(1, 40), bytes.Count - at);
            switch (random.Next(7))
            {
                case 0: bytes[at] = (byte)random.Next(256); break;
                case 1: bytes[at] = (byte)random.Next(32, 127); break;
                case 2: bytes.RemoveRange(at, length); break;
                case 3: bytes.InsertRange(at, Encoding.UTF8.GetBytes(Scraps[random.Next(Scraps.Length)])); break;
                case 4: bytes.InsertRange(at, bytes.GetRange(random.Next(bytes.Count - length + 1), length)); break;
                case 5: bytes.RemoveRange(at, bytes.Count - at); break;
                default: ReplaceValue(bytes, at, random); break;
            }
        }

        return [.. bytes];
    }

    /// <summary>Puts a scrap in place of what follows the next colon, so that values go wrong as often as structure.</summary>
    private static void ReplaceValue(List<byte> bytes, int at, Random random)
    {
        int colon = bytes.IndexOf((byte)':', at);
        if (colon < 0) return;
        int end = bytes.FindIndex(colon, b => b is (byte)'\n' or (byte)',' or (byte)'}');
        if (end < 0) end = bytes.Count;
        bytes.RemoveRange(colon + 1, end - colon - 1);
        bytes.InsertRange(colon + 1, Encoding.UTF8.GetBytes(" " + Scraps[random.Next(Scraps.Length)]));
    }
}
