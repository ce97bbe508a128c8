using System.Text.Json;
using Valvewright.Cli.Output;
using Valvewright.Files.Problems;

namespace Valvewright.Cli.Tests.Output;

public class FailureTests
{
    private static readonly Problem Misspelt =
        new("site.yaml", 12, 5, "laom", "a texture class", "loam", "unknown soil texture (zones/Lawn/soil)");

    [Fact]
    public void AProblemSaysWhereWhatWasFoundExpectedAndNearest()
    {
        (int code, string output, string error) = Explain(new ProblemsException(Misspelt), json: false);
        Assert.Equal(ExitCode.WrongInput, code);
        Assert.Empty(output);
        Assert.Equal(
            """
            site.yaml:12:5: unknown soil texture (zones/Lawn/soil)
                found:    laom
                expected: a texture class
                nearest:  loam
            valvewright: 1 problem. Nothing was written.

            """.ReplaceLineEndings("\n"),
            error);
    }

    [Fact]
    public void JsonCarriesTheSameProblems()
    {
        (_, string output, _) = Explain(new ProblemsException(Misspelt), json: true);
        using JsonDocument document = JsonDocument.Parse(output);
        Assert.Equal(65, document.RootElement.GetProperty("exitCode").GetInt32());
        Assert.Equal("loam", document.RootElement.GetProperty("problems")[0].GetProperty("nearest").GetString());
    }

    [Fact]
    public void WhatWasFoundCannotSteerTheTerminal()
    {
        (_, _, string error) = Explain(new ProblemsException(Misspelt with { Found = "\u001b[31m" + new string('x', 500) }), json: false);
        Assert.DoesNotContain('\u001b', error);
        Assert.True(error.Length < 400, error);
    }

    [Fact]
    public void ADefectIsCalledADefect()
    {
        (int code, _, string error) = Explain(new InvalidOperationException("boom"), json: false);
        Assert.Equal(ExitCode.Internal, code);
        Assert.Contains("a bug in valvewright", error.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
    }

    [Fact]
    public void CtrlCStops() => Assert.Equal(ExitCode.Stopped, Explain(new OperationCanceledException(), json: false).Code);

    private static (int Code, string Output, string Error) Explain(Exception exception, bool json)
    {
        using StringWriter output = new(), error = new();
        int code = Failure.Explain(exception, json, output, error);
        return (code, output.ToString(), error.ToString().ReplaceLineEndings("\n"));
    }
}
