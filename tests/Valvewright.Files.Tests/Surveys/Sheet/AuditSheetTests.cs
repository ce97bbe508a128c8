using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Files.Surveys;
using Valvewright.Files.Surveys.Sheet;

namespace Valvewright.Files.Tests.Surveys.Sheet;

public sealed class AuditSheetTests
{
    [Fact]
    public void Cans_take_the_place_of_what_was_assumed_and_nothing_else_changes()
    {
        CatchCans cans = CatchCans.OfLitres([.028, .031, .026, .022], 15, .009);
        string text = "# a remark\n" + SmallSite.Text;
        string changed = AuditSheet.With(text, "Green", 1, cans)!;
        (Site before, Site after) = (SurveyFiles.ParseApart(text, "survey").Site!, SurveyFiles.ParseApart(changed, "survey").Site!);
        Assert.StartsWith("# a remark", changed, StringComparison.Ordinal);
        Same(cans.Spots(), after.Controllers[0].ZoneAt(1).Emission.Spots);
        Assert.Equal(before.Controllers[0].ZoneAt(2), after.Controllers[0].ZoneAt(2));
        Assert.Equal(before.Supplies, after.Supplies);
        Assert.Equal(changed, AuditSheet.With(changed, "Green", 1, cans));
    }

    [Fact]
    public void Depths_stay_depths()
    {
        CatchCans cans = CatchCans.OfDepths([.0028, .0031, .0026, .0022], 15);
        Site after = SurveyFiles.ParseApart(AuditSheet.With(SmallSite.Text, "Green", 1, cans)!, "survey").Site!;
        Same(cans.Spots(), after.Controllers[0].ZoneAt(1).Emission.Spots);
    }

    [Fact]
    public void A_zone_that_is_not_there_is_no_guess() =>
        Assert.Null(AuditSheet.With(SmallSite.Text, "Green", 3, CatchCans.OfDepths([.0028, .0031, .0026, .0022], 15)));

    private static void Same(SpotShares expected, SpotShares found) =>
        Assert.All(expected.Share.Zip(found.Share), pair => Assert.Equal(pair.First, pair.Second, 12));
}
