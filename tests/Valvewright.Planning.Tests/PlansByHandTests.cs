using Valvewright.Engine.Proof;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;
using Valvewright.Tests;
using Xunit.Abstractions;

namespace Valvewright.Planning.Tests;

/// <summary>Plans written by hand (tests/Shared/PlansByHand says how) break no rule: what the planner is compared with could be keyed
/// in.</summary>
public sealed class PlansByHandTests(ITestOutputHelper output)
{
    public static string Folder => Path.Combine(Checkout.Root, "tests", "Shared", "PlansByHand");

    public static TheoryData<string> Names()
    {
        TheoryData<string> names = [];
        foreach (string file in Directory.GetFiles(Folder, "*.json").Order(StringComparer.Ordinal))
        {
            names.Add(Path.GetFileNameWithoutExtension(file));
        }

        return names;
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void A_plan_by_hand_breaks_no_rule(string name)
    {
        PlanReading reading = PlanFiles.Read(Path.Combine(Folder, name + ".json"));
        Assert.True(reading.Saved is not null, string.Join('\n', reading.Problems));
        Site site = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", name)).Site!;
        BuiltClimate built = ClimateBuilder.Build(SiteWeather.Read(site).Record!);
        YearSplit split = built.Split(site.Place.LatitudeDeg);
        ProofReport proof = Proofs.Replay(
            site, reading.Saved.Plan, [.. split.HeldBack.Select(y => y.Of(built.Climate))], new ProofOptions(reading.Saved.From, []));
        output.WriteLine(string.Join('\n', proof.Zones.Select(z => z.ToString())));
        Assert.True(proof.Breaches.Count == 0, string.Join('\n', proof.Breaches));
        Assert.Null(proof.Supplies[0].InDoubt);
    }

    [Fact]
    public void There_is_one_for_each_of_the_five_sites() =>
        Assert.Equal(["claybank", "gulf-reserve", "polder-green", "quarry-hill", "saguaro-lane"],
            Directory.GetFiles(Folder, "*.json").Select(Path.GetFileNameWithoutExtension).Order());
}
