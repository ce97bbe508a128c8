using System.CommandLine;
using NodaTime;
using Valvewright.Files.Texts;

namespace Valvewright.Cli.Commands.Trace;

/// <summary>What was given to a trace, beside the site.</summary>
internal sealed record TraceArguments
{
    private static readonly Option<string?> ControllerOption = new("--controller")
        { Description = "The controller; not needed if there is only one.", HelpName = "name" };
    private static readonly Option<int?> StationOption = new("--station")
        { Description = "The station; leave it out if all are affected.", HelpName = "n" };
    private static readonly Option<string?> ComplaintOption = new("--complaint")
        { Description = "What the caller says, for example: station 2 never comes on.", HelpName = "text" };
    private static readonly Option<string[]> AnswerOption = new("--answer")
        { Description = "An answer, for example: click: none. May be repeated.", HelpName = "step: answer",
            AllowMultipleArgumentsPerToken = false };
    private static readonly Option<string?> AnswersOption = new("--answers")
        { Description = "A file of answers, one per line, or - for standard input.", HelpName = "file" };
    private static readonly Option<string?> StateOption = new("--state")
        { Description = "The file that keeps the trace; an existing one is continued.", HelpName = "file" };
    private static readonly Option<bool> PhoneOption = new("--phone") { Description = "Ask only what a caller can do." };
    private static readonly Option<string[]> WithoutOption = new("--without")
        { Description = "Something not at hand, for example: multimeter. May be repeated.", HelpName = "need" };
    private static readonly Option<string?> ReadingOption = new("--reading")
        { Description = "The file with the reading; its check answers for the settings.", HelpName = "file" };
    private static readonly Option<string?> PlanOption = new("--plan")
        { Description = "The saved plan. Default: out/plan.json next to the site file, if it exists.", HelpName = "file" };
    private static readonly Option<LocalDateTime?> AtOption = new("--at") { Description = "Local time at the site. Default: now.",
        HelpName = "yyyy-mm-ddThh:mm", CustomParser = CheckArguments.ReadTime };
    private static readonly Option<string?> ModelOption = new("--model") { Description = "A corrected fault model.", HelpName = "file" };
    private static readonly Option<bool> PrintModelOption = new("--print-model")
        { Description = "Print the fault model, to copy and correct." };
    private static readonly Option<string?> RecordsOption = new(
        "--records") { Description = "A folder of kept traces, or a store; confirmed causes adjust the weights.", HelpName = "folder" };
    private static readonly Option<string?> ByOption = new("--by") { Description = "Who answers.", HelpName = "name" };
    private static readonly Option<bool> RoadOption = new("--road") { Description = "The site is next to a road." };
    private static readonly Option<bool> ReclaimedOption = new("--reclaimed") { Description = "The water is reclaimed." };
    private static readonly Option<bool> DosedOption = new("--dosed") { Description = "Fertilizer or chemicals are injected." };
    private static readonly Option<double?> CoilOption = new("--coil-ohms")
        { Description = "Resistance of a good coil at this site, ohms. Default: 6.", HelpName = "ohms" };
    private static readonly Option<double?> WireOption = new("--wire-m")
        { Description = "Wire from controller to valve, m. Default: 10.", HelpName = "m" };
    private static readonly Option<int?> CellsOption = new("--cells")
        { Description = "Cells of 1.5 V in the battery. Default: 6.", HelpName = "n" };

    public string? Controller { get; init; }

    public int? Station { get; init; }

    public string? Complaint { get; init; }

    public IReadOnlyList<string> Answers { get; init; } = [];

    public string? AnswersFile { get; init; }

    public string? State { get; init; }

    public bool Phone { get; init; }

    public IReadOnlyList<string> Without { get; init; } = [];

    public string? Reading { get; init; }

    public string? Plan { get; init; }

    public LocalDateTime? At { get; init; }

    public string? Model { get; init; }

    public bool PrintModel { get; init; }

    public string? Records { get; init; }

    public string? By { get; init; }

    public bool Road { get; init; }

    public bool Reclaimed { get; init; }

    public bool Dosed { get; init; }

    public double? CoilOhms { get; init; }

    public double? WireM { get; init; }

    public int? Cells { get; init; }

    public Language Language { get; init; }

    /// <summary>Whether answers were given with the command, so that no one is asked.</summary>
    public bool IsScripted => Answers.Count > 0 || AnswersFile is not null;

    public static IEnumerable<Option> Options =>
    [
        ControllerOption, StationOption, ComplaintOption, AnswerOption, AnswersOption, StateOption, PhoneOption, WithoutOption,
            ReadingOption, PlanOption, AtOption,
        ModelOption, PrintModelOption, RecordsOption, ByOption, RoadOption, ReclaimedOption, DosedOption, CoilOption,
            WireOption, CellsOption,
    ];

    public static TraceArguments Of(ParseResult parse, Language language) => new()
    {
        Controller = parse.GetValue(ControllerOption), Station = parse.GetValue(StationOption), Complaint = parse.GetValue(ComplaintOption),
        Answers = parse.GetValue(AnswerOption) ?? [], AnswersFile = parse.GetValue(AnswersOption), State = parse.GetValue(StateOption),
        Phone = parse.GetValue(PhoneOption), Without = parse.GetValue(WithoutOption) ?? [], Reading = parse.GetValue(ReadingOption),
            Plan = parse.GetValue(PlanOption),
        At = parse.GetValue(AtOption), Model = parse.GetValue(ModelOption), PrintModel = parse.GetValue(PrintModelOption),
            Records = parse.GetValue(RecordsOption),
        By = parse.GetValue(ByOption), Road = parse.GetValue(RoadOption), Reclaimed = parse.GetValue(ReclaimedOption),
            Dosed = parse.GetValue(DosedOption),
        CoilOhms = parse.GetValue(CoilOption), WireM = parse.GetValue(WireOption), Cells = parse.GetValue(CellsOption),
        Language = language,
    };
}
