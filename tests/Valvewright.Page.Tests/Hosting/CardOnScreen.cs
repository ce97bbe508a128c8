using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using NodaTime;
using NodaTime.Text;

namespace Valvewright.Page.Tests.Hosting;

/// <summary>A program as a card on the screen shows it.</summary>
/// <param name="Letter">Its letter.</param>
/// <param name="Days">Its water days, in words.</param>
/// <param name="Starts">Its start times.</param>
/// <param name="RunSeconds">Run times that are not nothing, by station, s.</param>
internal sealed record ProgramOnScreen(char Letter, string Days, IReadOnlyList<string> Starts, SortedDictionary<int, int> RunSeconds);

/// <summary>A card in English as it stands on the screen, read from the screen alone.</summary>
/// <param name="From">The date that it is for.</param>
/// <param name="Programs">What to key in.</param>
/// <param name="PercentNow">The percent to set now.</param>
/// <param name="Percents">The percent from each visit on.</param>
/// <param name="Check">The check text.</param>
internal sealed partial record CardOnScreen(LocalDate From, IReadOnlyList<ProgramOnScreen> Programs, string PercentNow,
    IReadOnlyList<(string Date, string Percent)> Percents, string Check)
{
    /// <summary>The words of a place without what stands in small letters beside them.</summary>
    private const string Script = """
        () => {
          const plain = (e) => { const copy = e.cloneNode(true); copy.querySelectorAll('small').forEach(s => s.remove()); return copy.textContent.replace(/\s+/g, ' ').trim(); };
          const card = document.querySelector('article.card');
          return JSON.stringify({
            from: card.querySelector('#card-from').value,
            steps: [...card.querySelectorAll('section.step')].map(s => ({
              title: plain(s.querySelector('h2')),
              lines: [...s.querySelectorAll('label.keyed')].map(l => [plain(l.querySelector('.what')), l.querySelector('b.value') ? plain(l.querySelector('b.value')) : ''])
            })),
            visits: [...card.querySelectorAll('section:not(.step)')].filter(s => s.querySelector('h2').textContent.includes('Percent'))
              .flatMap(s => [...s.querySelectorAll('dt')].map(d => [plain(d), plain(d.nextElementSibling)]))
          });
        }
        """;

    public static async Task<CardOnScreen> Read(IPage page)
    {
        JsonElement card = JsonSerializer.Deserialize<JsonElement>(await page.EvaluateAsync<string>(Script));
        List<ProgramOnScreen> programs = [];
        string percent = "", check = "";
        foreach (JsonElement step in card.GetProperty("steps").EnumerateArray())
        {
            string title = step.GetProperty("title").GetString()!;
            (string What, string Value)[] lines =
                [.. step.GetProperty("lines").EnumerateArray().Select(l => (l[0].GetString()!, l[1].GetString()!))];
            if (title.Split(' ') is [_, "Program", [var letter]])
            {
                programs.Add(new ProgramOnScreen(
                    letter, lines.First(l => l.What == "Watering days").Value,
                    [.. lines.Where(l => l.What.StartsWith("Start ", StringComparison.Ordinal)
                        && l.Value.Contains(':', StringComparison.Ordinal)).Select(l => l.Value)],
                    new SortedDictionary<int, int>(
                        lines.Where(l => l.What.Length > 0 && char.IsDigit(l.What[0]) && l.Value.EndsWith(" min", StringComparison.Ordinal))
                            .ToDictionary(l => int.Parse(l.What.Split(' ')[0], CultureInfo.InvariantCulture), l => Seconds(l.Value)))));
            }
            else if (title.EndsWith("Percent adjust", StringComparison.Ordinal))
            {
                percent = lines[0].Value;
            }
            else if (lines is [("Check", _)] or [("Check text", _)])
            {
                check = lines[0].Value;
            }
        }

        return new CardOnScreen(
            LocalDatePattern.Iso.Parse(card.GetProperty("from").GetString()!).Value, programs, percent,
            [.. card.GetProperty("visits").EnumerateArray()
                .Select(v => (v[0].GetString()!.Replace("from ", "", StringComparison.Ordinal), v[1].GetString()!))], check);
    }

    private static int Seconds(string shown) =>
        Part().Matches(shown).Sum(m =>
            int.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture) * m.Groups[2].Value switch { "h" => 3600, "min" => 60, _ => 1 });

    [GeneratedRegex(@"(\d+)\s(h|min|s)\b")]
    private static partial Regex Part();
}
