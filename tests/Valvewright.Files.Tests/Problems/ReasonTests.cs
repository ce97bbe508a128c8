using Valvewright.Files.Problems;

namespace Valvewright.Files.Tests.Problems;

public sealed class ReasonTests
{
    [Theory]
    [InlineData("No day is whole.", "days")]
    [InlineData("No day is whole.", null)]
    public void The_name_of_a_parameter_is_not_told(string said, string? parameter) =>
        Assert.Equal(said, Reason.Of(new ArgumentException(said, parameter)));
}
