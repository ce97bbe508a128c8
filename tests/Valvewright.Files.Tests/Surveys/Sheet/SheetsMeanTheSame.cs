using System.Text;
using CsCheck;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Surveys;
using Valvewright.Files.Surveys.Sheet;
using Valvewright.Tests;

namespace Valvewright.Files.Tests.Surveys.Sheet;

/// <summary>A survey taken apart and written again means the same, whatever it holds; remarks stay.</summary>
public sealed class SheetsMeanTheSame
{
    [Theory]
    [MemberData(nameof(DemoSitesRead.Demos), MemberType = typeof(DemoSitesRead))]
    public void A_demo_site_written_again_means_the_same_and_keeps_its_remarks(string demo)
    {
        string text = File.ReadAllText(Path.Combine(Checkout.Root, "demo", demo, SurveyFiles.UsualName));
        string again = SurveySheet.Of(text)!.Write();
        SurveyReading before = SurveyFiles.ParseApart(text, "survey"), after = SurveyFiles.ParseApart(again, "survey");
        Assert.Empty(after.Problems);
        Assert.Equal(Json.Write(before.Site), Json.Write(after.Site));
        Assert.Equal(RemarksOf(text), RemarksOf(again));
        Assert.Equal(again, SurveySheet.Of(again)!.Write());
    }

    [Fact]
    public void Changing_one_value_of_a_demo_site_changes_one_line()
    {
        string text = File.ReadAllText(Path.Combine(Checkout.Root, "demo", "quarry-hill", SurveyFiles.UsualName)).ReplaceLineEndings("\n");
        SurveySheet sheet = SurveySheet.Of(text)!;
        sheet.Set("controllers/0/zones/1/area", "111 m2");
        string[] before = text.Split('\n'), after = sheet.Write().Split('\n');
        Assert.Equal(before.Length, after.Length);
        Assert.Equal(["        area: 111 m2"], after.Where((line, i) => line != before[i]));
    }

    [Fact]
    public void A_tidy_survey_comes_out_letter_for_letter()
    {
        string text = SmallSite.Text.ReplaceLineEndings("\n") + "\n# the end\n";
        Assert.Equal(text, SurveySheet.Of(text)!.Write());
    }

    [Fact]
    public void Whatever_is_typed_comes_back_as_it_was_typed()
    {
        string[] scraps = ["a", "B c", "'", "\"", ": ", " #", "#", "- ", "-", "{", "}", "[", "]", ",", "&", "*", "!", "|", ">", "%", "@",
            "`", "~", "null", "yes", "1,200", "3/4 in", "\\", "ñ", "🌱", "\t", "=", "?", "---", "\u2028", "\u0085"];
        Gen<string> typed = Gen.Int[0, scraps.Length - 1].Select(i => scraps[i]).Array[1, 5].Select(a => string.Concat(a).Trim())
            .Where(t => t.Length > 0 && t is not ("~" or "null"));
        Gen.Select(typed, typed, typed).Sample((site, plant, unit) =>
        {
            SurveySheet sheet = SurveySheet.Blank();
            sheet.Set("site", site);
            sheet.Set("controllers/0/zones/0/plants/name", plant);
            sheet.SetTexts("supplies/0/permitted/hours", [unit, plant]);
            string written = sheet.Write();
            SurveySheet again = SurveySheet.Of(written) ?? throw new InvalidOperationException(written);
            return again.Text("site") == site && again.Text("controllers/0/zones/0/plants/name") == plant
                && again.Texts("supplies/0/permitted/hours").Equals([unit, plant]);
        });
    }

    [Fact]
    public void Damaged_surveys_that_are_YAML_still_mean_the_same()
    {
        byte[] sample = File.ReadAllBytes(Path.Combine(Checkout.Root, "demo", "quarry-hill", SurveyFiles.UsualName));
        int seen = 0;
        for (int seed = 0; seed < 3000; seed++)
        {
            string text = Encoding.UTF8.GetString(SurveyFuzz.Mutate(sample, new Random(seed)));
            if (text.Contains('\0', StringComparison.Ordinal) || SurveySheet.Of(text) is not { } sheet
                || SurveyFiles.ParseApart(text, "s") is not { Site: { } site }) continue;
            seen++;
            string written = sheet.Write();
            SurveyReading again = SurveyFiles.ParseApart(written, "s");
            Assert.True(again.Site is { } read && Json.Write(read) == Json.Write(site),
                $"Seed {seed}:\n{text}\n=>\n{written}\n{string.Join('\n', again.Problems)}");
        }

        Assert.InRange(seen, 100, 3000);
    }

    [Fact]
    public void A_survey_typed_value_by_value_is_a_site()
    {
        SurveySheet sheet = SurveySheet.Blank();
        foreach ((string path, string value) in ((string, string)[])
        [
            ("controllers/0/zones/0/sprinklers/flow", "16 L/min"), ("controllers/0/zones/0/sprinklers/kind", "rotor"),
                ("controllers/0/zones/0/plants/kind", "cool-season turf"),
            ("controllers/0/zones/0/area", "80 m2"), ("controllers/0/zones/0/name", "Lawn: the upper one"),
                ("controllers/0/zones/0/station", "1"),
            ("controllers/0/name", "Green"), ("controllers/0/profile", "4 stations, 2 programs, 4 starts"),
            ("supplies/0/flow", "40 L/min"), ("supplies/0/name", "Main"), ("time zone", "Europe/Zurich"), ("location/longitude", "8.52"),
                ("location/latitude", "47.43"), ("site", "Test green"),
        ])
        {
            sheet.Set(path, value);
        }

        SurveyReading judged = SurveyFiles.ParseApart(sheet.Write(), "survey");
        Assert.Empty(judged.Problems);
        Site site = judged.Site!;
        Assert.Equal("Lawn: the upper one", site.Controllers[0].ZoneAt(1).Name);
        Assert.StartsWith("site: Test green\nlocation: { latitude: 47.43, longitude: 8.52 }\ntime zone: Europe/Zurich\nsupplies:\n  - " +
            "name: Main\n    flow: 40 L/min\n", sheet.Write(), StringComparison.Ordinal);
        Assert.Contains("        plants: cool-season turf\n", sheet.Write(), StringComparison.Ordinal);

        sheet.Set("controllers/0/zones/0/plants/stage", "newly seeded");
        Assert.Contains("plants: { kind: cool-season turf, stage: newly seeded }", sheet.Write(), StringComparison.Ordinal);
        Assert.Equal("cool-season turf", sheet.Text("controllers/0/zones/0/plants/kind"));
        Assert.Equal("controllers/0/zones/0/plants/stage", Assert.Single(SurveyFiles.ParseApart(sheet.Write(), "survey").Warnings).Path);
    }

    [Fact]
    public void A_problem_knows_which_value_it_is_about()
    {
        SurveySheet sheet = SurveySheet.Of(SmallSite.Text)!;
        sheet.Set("supplies/0/flow", "40 psi");
        sheet.Set("controllers/0/zones/1/area", "");
        sheet.Set("controllers/0/zones/1/soil/clay", "200 %");
        sheet.SetTexts("supplies/0/permitted/hours", ["22:00-06:00", "25:00-26:00"]);
        sheet.Remove("time zone");
        Assert.Equal(
            ["controllers/0/zones/1/area", "controllers/0/zones/1/soil/clay", "supplies/0/flow",
                "supplies/0/permitted/hours/1", "time zone"],
            SurveyFiles.ParseApart(sheet.Write(), "survey").Problems.Select(p => p.Path).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void What_is_taken_away_is_gone_with_what_it_leaves_empty()
    {
        SurveySheet sheet = SurveySheet.Of(SmallSite.Text)!;
        sheet.Remove("supplies/0/permitted/hours");
        Assert.False(sheet.Has("supplies/0/permitted"));
        sheet.Remove("controllers/0/zones/0");
        Assert.Equal(1, sheet.Count("controllers/0/zones"));
        Assert.Equal("Hedge", sheet.Text("controllers/0/zones/0/name"));
        sheet.Set("controllers/0/zones/0/soil/texture", "clay");
        Assert.Equal("clay", sheet.Text("controllers/0/zones/0/soil/texture"));
        Assert.Equal(1, sheet.AddItem("controllers/0/zones"));
        Assert.Null(SurveySheet.Of("- no\n- mapping"));
    }

    private static IEnumerable<string> RemarksOf(string text) => text.Split('\n')
        .Select(l => l.IndexOf('#', StringComparison.Ordinal) is >= 0 and int at ? l[at..].Trim() : "").Where(r => r.Length > 0);
}
