using Valvewright.App.Pages.Audit;
using Valvewright.Engine.Audit;
using Valvewright.Engine.Survey;

namespace Valvewright.App.Tests.Pages.Audit;

public sealed class AuditDraftTests
{
    private static readonly AuditDraft Whole = new() { Minutes = "15", Opening = "90 cm2", Cans = [28, 31, 26, 22] };

    /// <summary>By hand: a mean of 26.75 mL on 90 cm2 is 2.9722 mm in 15 min, 11.889 mm/h.</summary>
    [Fact]
    public void What_was_typed_becomes_a_test()
    {
        Assert.Equal(26.75 / 90 * 10 * 4, Whole.Test!.NetRateMmPerHour, 9);
        Assert.Equal(0.02, (Whole with { Cans = [20, 20, 20, 20] }).Test!.Mean, 12);
    }

    [Fact]
    public void Nothing_is_worked_out_from_half_a_test()
    {
        Assert.Null((Whole with { Minutes = "" }).Test);
        Assert.Null((Whole with { Opening = "90 kPa" }).Test);
        Assert.Null((Whole with { Cans = [28, 31, 26] }).Test);
        Assert.Null((Whole with { Cans = [0, 0, 0, 0] }).Test);
    }

    [Fact]
    public void Whole_rows_give_places()
    {
        AuditDraft rows = Whole with { Cans = [1, 2, 3, 4, 5, 6], Columns = "3", Spacing = "2" };
        Assert.Equal([new CanPlace(0, 0), new CanPlace(2, 0), new CanPlace(4, 0), new CanPlace(0, 2), new CanPlace(2, 2),
            new CanPlace(4, 2)], rows.Places(UnitSystem.Metric));
        Assert.Equal(0.6096 * 2, rows.Places(UnitSystem.UsCustomary)[2].XM, 9);
        Assert.Empty((rows with { Columns = "4" }).Places(UnitSystem.Metric));
    }

    [Theory]
    [InlineData("28", 28.0)]
    [InlineData(" 28,5 ", 28.5)]
    [InlineData("0", 0.0)]
    [InlineData("-3", null)]
    [InlineData("a few", null)]
    [InlineData("1e9", null)]
    public void A_reading_is_a_number_of_milliliters(string typed, double? ml) => Assert.Equal(ml, AuditDraft.Reading(typed));
}
