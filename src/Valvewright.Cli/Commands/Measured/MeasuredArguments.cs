using System.CommandLine;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Measured;
using Valvewright.Files.Problems;
using Valvewright.Files.Texts;

namespace Valvewright.Cli.Commands.Measured;

/// <summary>Arguments of the commands that work on measurements, and what they have in common.</summary>
internal sealed class MeasuredArguments
{
    private readonly Argument<string> site = SiteArguments.Site();
    private readonly Option<string?> measured = new("--measured")
        { Description = $"The measurements. Default: {MeasuredFiles.UsualName} next to the site file.", HelpName = "file" };

    public void AddTo(Job job)
    {
        job.Arguments.Add(site);
        job.Options.Add(measured);
    }

    /// <summary>The path that was given for the site.</summary>
    public string SitePath(ParseResult parse) => parse.GetValue(site)!;

    /// <summary>Reads the measurements of a site.</summary>
    /// <exception cref="ProblemsException">They can't be used.</exception>
    public MeasuredSite Read(ParseResult parse, SiteFile file, Sheet sheet)
    {
        string beside = Path.GetDirectoryName(file.Path) is { Length: > 0 } folder ? folder : ".";
        MeasuredReading reading = MeasuredFiles.Read(parse.GetValue(measured) ?? Path.Combine(beside, MeasuredFiles.UsualName), file.Site);
        if (reading.Site is not { } found) throw new ProblemsException(reading.Problems);
        foreach (Problem question in reading.Questions) sheet
            .Say($"Check {question.Where}: {question.Message} ({question.Found}; {question.Expected}).", 2);
        return found;
    }

    /// <summary>Refuses doubtful readings that were not confirmed; says those that were.</summary>
    /// <exception cref="ProblemsException">A doubtful reading was not confirmed.</exception>
    public static void Settle(Sheet sheet, string where, ListOf<DoubtfulReading> doubts, bool isConfirmed)
    {
        if (doubts.Count == 0) return;
        if (!isConfirmed)
        {
            throw new ProblemsException(doubts.Select(d => new Problem(
                $"{where}/{d.Where}", 0, 0, sheet.In(d.Found),
                "another reading, or 'confirmed: yes' next to it to use it all the same", null,
                    d.Why)).ToListOf());
        }

        foreach (DoubtfulReading doubt in doubts) sheet
            .Say($"DOUBTFUL, confirmed: {where}/{doubt.Where}: {doubt.Found}. {doubt.Why}. Everything below rests on it.", 2);
    }

    /// <summary>The cautions of the work.</summary>
    public static void Caution(Sheet sheet, ListOf<FieldCaution> cautions)
    {
        foreach (FieldCaution caution in cautions) sheet
            .Say($"! {caution.Text.In(sheet.Language)} {caution.DefersTo.In(sheet.Language)}", 2);
    }
}
