using System.CommandLine;
using System.Text;
using Valvewright.Cli.Commands;
using Valvewright.Cli.Output;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Files.Plans;
using Valvewright.Files.Problems;
using Valvewright.Files.Readings;
using Valvewright.Work;

namespace Valvewright.Cli.Inputs;

/// <summary>The programs that a site has, as readings of its controllers give them; taken by several commands.</summary>
internal sealed class GivenPrograms
{
    private readonly Option<string[]> readings = new("--from-reading")
    {
        Description = "A reading of a controller, or - for standard input; once for each controller. "
            + "A controller without a reading keeps the saved plan.",
        HelpName = "file",
        Arity = ArgumentArity.OneOrMore,
    };

    /// <summary>The option.</summary>
    public Option Option => readings;

    /// <summary>Whether readings were given.</summary>
    public bool AreIn(ParseResult parse) => parse.GetValue(readings) is { Length: > 0 };

    /// <summary>The programs read.</summary>
    /// <param name="parse">What was typed.</param>
    /// <param name="file">The site.</param>
    /// <param name="planFile">The saved plan for controllers that were not read; null for the usual one, where there is one.</param>
    /// <exception cref="ProblemsException">A file cannot be read.</exception>
    /// <exception cref="RefusalException">Something was not read, or is doubtful.</exception>
    public StandingPrograms Read(ParseResult parse, SiteFile file, string? planFile)
    {
        Site site = file.Site;
        ControllerRead[] reads = [.. parse.GetValue(readings)!.Select(path => ReadOne(path, file))];
        bool isWhole = site.Controllers.All(c => c.Zones.Count == 0 || reads.Any(r => r.Controller.Name == c.Name));
        Plan? others = isWhole || (planFile is null && !File.Exists(file.UsualPlan)) ? null : file.ReadPlan(planFile).Plan;
        return StandingPrograms.Of(site, [.. reads], others, file.Today);
    }

    /// <summary>Says what the programs rest on.</summary>
    public static void Say(Sheet sheet, StandingPrograms standing)
    {
        foreach (string controller in standing.NotRead)
        {
            sheet.Say($"{Printable.Of(controller)} was not read; its programs are those of the saved plan.");
        }

        foreach (Sentence assumed in standing.Assumed)
        {
            sheet.Say(assumed);
        }
    }

    private static ControllerRead ReadOne(string path, SiteFile file)
    {
        Site site = file.Site;
        CheckArguments arguments = new(path, null, null, Alone: false, At: null, Files.Texts.Language.English, Seen: null);
        (string source, string text) = arguments.ReadText();
        string? named = Parsed(text, source, site, null).Reading.Controller;
        SiteController controller = named is null && site.Controllers.Count > 1
            ? throw new ProblemsException(new Problem(source, 0, 0, "",
                $"the controller's name first, as: {site.Controllers[0].Name}: A starts 5:00 ...", null,
                "it does not say which controller was read"))
            : arguments.ChooseController(file, named);
        return new ControllerRead(source, controller, Parsed(text, source, site, controller));
    }

    private static ReadText Parsed(string text, string source, Site site, SiteController? controller)
    {
        ReadingFile read = ReadingFiles.Parse(text, source, controller?.Profile, controller is null ? null : site.Clock,
            SiteNames.Of(site, controller));
        return read.Text ?? throw new ProblemsException(read.Problems);
    }
}
