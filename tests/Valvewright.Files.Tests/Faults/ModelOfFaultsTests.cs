using Valvewright.Engine.Faults;
using Valvewright.Files.Faults;
using Valvewright.Files.Problems;

namespace Valvewright.Files.Tests.Faults;

/// <summary>The fault model that ships, and one that a technician corrects.</summary>
public sealed class ModelOfFaultsTests
{
    [Fact]
    public void The_model_that_ships_reads_without_a_problem() =>
        Assert.Empty(FaultModelFiles.Parse(FaultModelFiles.Text, "faults.yaml").Problems);

    [Theory]
    [InlineData("click: {none: 97}", "clicks: {none: 97}", "click")]
    [InlineData("battery: {works now: 93}", "battery: {works nao: 93}", "works now")]
    [InlineData("hazards: [digging, pressure, water]", "hazards: [diging, pressure, water]", "digging")]
    [InlineData("minutes: 6\n    phone: yes", "minutes: 6\n    fone: yes", "phone")]
    public void A_misspelt_word_is_told_with_its_line_and_the_nearest_word(string right, string wrong, string nearest)
    {
        int at = FaultModelFiles.Text.IndexOf(right, StringComparison.Ordinal);
        Assert.True(at > 0, right);
        string text = FaultModelFiles.Text[..at] + wrong + FaultModelFiles.Text[(at + right.Length)..];
        FaultModelFile file = FaultModelFiles.Parse(text, "mine.yaml");
        Problem problem = file.Problems[0];
        Assert.Null(file.Model);
        Assert.Equal(nearest, problem.Nearest);
        Assert.Equal(1 + text[..at].Count(c => c == '\n') + wrong.Count(c => c == '\n'), problem.Line);
    }

    [Theory]
    [InlineData("sure: 97", "sure: 197", "from 60 to 99.9")]
    [InlineData("complaints: {never on: 80, sometimes: 15, nothing on: 5}", "complaints: {never on: 80}", "sum to 80")]
    [InlineData("- {answer: clean, usual: 92,", "- {answer: clean, usual: 52,", "sum to 60")]
    public void Figures_that_cannot_be_are_refused(string right, string wrong, string told)
    {
        string text = FaultModelFiles.Text.Replace(right, wrong, StringComparison.Ordinal);
        Assert.NotEqual(FaultModelFiles.Text, text);
        Assert.Contains(FaultModelFiles.Parse(text, "mine.yaml").Problems, p => p.ToString().Contains(told, StringComparison.Ordinal));
    }

    [Fact]
    public void Every_cause_says_what_to_do_and_can_be_told_from_every_other_cause_of_its_complaint()
    {
        FaultModel model = FaultModelFiles.Shipped;
        Assert.All(model.Causes, c =>
            Assert.False(string.IsNullOrWhiteSpace(c.Repair.English) || string.IsNullOrWhiteSpace(c.Repair.Spanish)));
        foreach (Cause cause in model.Causes)
        {
            Assert.DoesNotContain(model.Causes, other => other.Name != cause.Name && other.Shows.Equals(cause.Shows));
        }
    }

    [Fact]
    public void Records_take_over_from_the_rules_of_thumb_at_the_stated_rate()
    {
        FaultModel model = FaultModelFiles.Shipped;
        double sum = model.Causes.Sum(c => c.Weight), before = model.CauseNamed("plunger stuck")!.Weight / sum;
        FaultModel learned = model.LearnedFrom(Enumerable.Repeat("plunger stuck", 100).Concat(Enumerable.Repeat("no such cause", 5)));
        double after = learned.CauseNamed("plunger stuck")!.Weight / learned.Causes.Sum(c => c.Weight);

        // Dirichlet prior: (prior cases x share + count) / (prior cases + all counted).
        Assert.Equal(((model.PriorCases * before) + 100) / (model.PriorCases + 100), after, 9);
    }
}
