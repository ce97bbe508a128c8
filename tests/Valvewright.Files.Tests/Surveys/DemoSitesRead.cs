using Valvewright.Files.Surveys;
using Valvewright.Tests;

namespace Valvewright.Files.Tests.Surveys;

/// <summary>Every demo site is a site.</summary>
public sealed class DemoSitesRead
{
    public static TheoryData<string> Demos()
    {
        TheoryData<string> data = [];
        foreach (string folder in Directory.GetDirectories(Path.Combine(Checkout.Root, "demo")).Order(StringComparer.Ordinal)) data
            .Add(Path.GetFileName(folder));
        return data;
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void A_demo_site_reads_without_a_problem_or_a_question(string demo)
    {
        SurveyReading reading = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", demo));
        Assert.Empty(reading.Problems);
        Assert.Empty(reading.Warnings);
        Assert.NotNull(reading.Site);
        Assert.All(reading.Site.Controllers, controller => Assert.NotEmpty(controller.Zones));
    }
}
