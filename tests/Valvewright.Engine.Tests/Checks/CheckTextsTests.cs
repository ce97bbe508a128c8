using System.Text.RegularExpressions;
using Valvewright.Engine.Checks;

namespace Valvewright.Engine.Tests.Checks;

public partial class CheckTextsTests
{
    [GeneratedRegex(@"\{[0-9]\}")]
    private static partial Regex Place();

    [Fact]
    public void Spanish_has_no_place_that_English_has_not() =>
        Assert.All(CheckTexts.All, t => Assert.Subset(Places(t.Value.English), Places(t.Value.Spanish)));

    private static HashSet<string> Places(string text) => [.. Place().Matches(text).Select(m => m.Value)];
}
