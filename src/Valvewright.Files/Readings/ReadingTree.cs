using NodaTime;
using NodaTime.Text;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Surveys;
using Valvewright.Files.Surveys.Fields;
using Valvewright.Files.Surveys.Yaml;
using Reading = Valvewright.Engine.Readings.Reading;

namespace Valvewright.Files.Readings;

/// <summary>Reads a reading from YAML or JSON. Its values are those of JSON, or words of the quick form, which reads them.</summary>
internal sealed class ReadingTree(Findings findings, Profile? profile, ClockStyle? clock)
{
    /// <summary>What no display can show is asked about, as it is in the quick form; it is read all the same.</summary>
    private const int LargestNumber = 1_000_000;

    private static readonly LocalTimePattern[] TimesOfDay = [LocalTimePattern.CreateWithInvariantCulture("HH:mm"),
        LocalTimePattern.ExtendedIso];
    private static readonly TextKind Free = new();
    private static readonly FieldGroup Clock = new("clock", "a clock", new("time", Free), new("weekday", Free), new("date", Free));

    private static readonly FieldGroup Run = new("run time", "a run time",
        new("station", new WholeKind(1, 48)) { IsNeeded = true }, new("seconds", new WholeKind(0, LargestNumber)),
            new("minutes", new WholeKind(0, 1440)));

    private static readonly FieldGroup Days = new("watering days", "watering days",
        new("kind", Free), new("weekdays", new ListKind(Free)), new("intervalDays", new WholeKind(1, LargestNumber)),
            new("daysLeft", new WholeKind(0, LargestNumber)),
        new("next", new DateKind()));

    private static readonly FieldGroup Program = new("program", "a program",
        new("letter", new TextKind("a letter from A to H")) { IsNeeded = true }, new("startTimes", new ListKind(Free)),
        new("runTimes", new ListKind(new KeysKind(Run))), new("days", new KeysKind(Days)));

    private static readonly FieldGroup Root = new("reading", "a reading",
        new("controller", Free), new("readAt", Free), new("clock", new KeysKind(Clock)), new("percent", new WholeKind(0, LargestNumber)),
        new("off", new YesNoKind()), new("rainHoldDays", new WholeKind(0, LargestNumber)),
            new("programs", new ListKind(new KeysKind(Program))));

    /// <summary>In the order in which the quick form is spoken.</summary>
    private static readonly string[] ClockParts = ["weekday", "date", "time"];

    private static readonly LocalDateTimePattern[] Moments =
    [
        LocalDateTimePattern.GeneralIso, LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm"),
            LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm"),
    ];

    private readonly List<Doubt> doubts = [];

    public ReadText Read(MapNode root)
    {
        MapReader map = new(root, Root, new ReadingContext(findings), "reading");
        Reading reading = new()
        {
            Controller = map.Text("controller"),
            ReadAt = Moment(map.Get("readAt")),
            Clock = ClockOf(map),
            Percent = map.Value<int>("percent"),
            Off = map.Value<bool>("off"),
            RainHoldDays = map.Value<int>("rainHoldDays"),
            Programs = Programs(map),
        };
        return new ReadText(reading, doubts.ToListOf());
    }

    private LocalDateTime? Moment(SurveyNode? node)
    {
        if (node is null)
        {
            return null;
        }

        if (node is TextNode text && Moments.Select(p => p.Parse(text.Text)).FirstOrDefault(
            r => r.Success && r.Value.Year is > 1990 and < 2200) is { } read)
        {
            return read.Value;
        }

        findings.Refuse(node, "a date and time such as 2026-07-14T15:20", "Not a date and time");
        return null;
    }

    private ClockShown? ClockOf(MapReader map)
    {
        switch (map.Get("clock"))
        {
            case null:
                return null;
            case TextNode text:
                return Quick(text, $"clock {text.Text}", "what the clock shows, such as Tue 15:12")?.Clock;
            case { } node when map.AsMap(node, "clock", "clock") is { } parts:
                string[] said = [.. ClockParts.Select(k => parts.Text(k)).OfType<string>().Select(WithoutSeconds)];
                return said.Length == 0 ? null : Quick(node, $"clock {string.Join(' ', said)}", "a weekday, date or time")?.Clock;
            default:
                return null;
        }
    }

    private ListOf<ReadProgram> Programs(MapReader map)
    {
        List<ReadProgram> programs = [];
        foreach (SurveyNode item in map.Get("programs") is ListNode { Entries.Count: 0 } ? [] : map.Items("programs"))
        {
            if (map.AsMap(item, "programs", "programs") is not { } program || program.Text("letter") is not { } letter)
            {
                continue;
            }

            char upper = letter.Length == 1 ? char.ToUpperInvariant(letter[0]) : '?';
            if (upper is < 'A' or > 'H')
            {
                findings.Refuse(program.Get("letter")!, "a letter from A to H", "Not a program");
            }
            else if (programs.Any(p => p.Letter == upper))
            {
                findings.Refuse(program.Get("letter")!, "each program once", $"Program {upper} is here twice");
            }
            else
            {
                programs.Add(new ReadProgram(upper)
                    { StartTimes = Starts(program, upper), RunTimes = Runs(program, upper), Days = DaysOf(program, upper) });
            }
        }

        return programs.OrderBy(p => p.Letter).ToListOf();
    }

    private ListOf<LocalTime>? Starts(MapReader program, char letter)
    {
        const string Expected = "times such as 05:00 or 5:00 am, or none";
        SortedSet<LocalTime> starts = [];
        switch (program.Get("startTimes"))
        {
            case null:
                return null;
            case ListNode list:
                foreach (SurveyNode item in list.Items)
                {
                    string text = program.AsText(item, Expected) is { } word ? WithoutSeconds(word.Text) : "";
                    if (TimesOfDay.Select(p => p.Parse(text)).FirstOrDefault(t => t.Success) is { } time)
                    {
                        starts.Add(time.Value);
                        Ask(item, $"{letter}: starts {text}");
                        continue;
                    }

                    starts.UnionWith(text.Length == 0 ? [] : FirstOf(Quick(item, $"{letter}: starts {text}", Expected))?.StartTimes ?? []);
                }

                return starts.ToListOf();
            case { } node:
                return program.AsText(node, Expected) is { } line
                    ? FirstOf(Quick(node, $"{letter}: starts {line.Text}", Expected))?.StartTimes : null;
        }
    }

    private ListOf<RunTime>? Runs(MapReader program, char letter)
    {
        const string Expected = "run times by station, such as 1: 10 min, or none";
        List<RunTime> runs = [];
        switch (program.Get("runTimes"))
        {
            case null:
                return null;
            case ListNode list:
                foreach (SurveyNode item in list.Items)
                {
                    if (item is TextNode)
                    {
                        runs.AddRange(FirstOf(Quick(item, $"{letter}: stations {((TextNode)item).Text}", Expected))?.RunTimes ?? []);
                    }
                    else if (program.AsMap(item, "runTimes", "runTimes") is { } run && run.Value<int>("station") is { } station)
                    {
                        int? seconds = run.Value<int>("seconds"), minutes = run.Value<int>("minutes");
                        runs.Add(new RunTime(station, seconds ?? 60 * (minutes ?? 0)));
                        if (seconds is null == minutes is null)
                        {
                            findings.Refuse(item, "either seconds or minutes", "How long the station runs is not said, or twice");
                        }
                    }
                }

                break;
            case MapNode map:
                foreach (NodeEntry run in map.Entries)
                {
                    string text = program.AsText(run.Value, "a length of time such as 10 min") is { } word ? word.Text : "";
                    runs.AddRange(FirstOf(Quick(run.Key, $"{letter}: st{run.Key.Text} {text}", Expected))?.RunTimes ?? []);
                }

                break;
            case TextNode text:
                return FirstOf(Quick(text, $"{letter}: stations {text.Text}", Expected))?.RunTimes;
        }

        foreach (IGrouping<int, RunTime> twice in runs.GroupBy(r => r.Station).Where(g => g.Count() > 1))
        {
            findings.Refuse(program.Get("runTimes")!, "each station once", $"Station {twice.Key} is here twice");
        }

        return runs.OrderBy(r => r.Station).ToListOf();
    }

    private ReadDays? DaysOf(MapReader program, char letter)
    {
        const string Expected = "watering days such as MWF, odd, every 3 days 2 left, or none";
        switch (program.Get("days"))
        {
            case null:
                return null;
            case MapNode node when program.AsMap(node, "days", "days") is { } days:
                string[] words = days.Get("weekdays") is null or ListNode { Entries.Count: 0 } ? []
                    : [.. days.Items("weekdays").Select(d => days.AsText(d, "a weekday")?.Text).OfType<string>()];
                LocalDate? next = days.Value<LocalDate>("next");
                int? n = days.Value<int>("intervalDays"), left = days.Value<int>("daysLeft");
                string count = (n is null ? "" : $"every {n} days ") + (left is null ? "" : $"{left} left ") + (
                    next is null ? "" : $"next {next:uuuu-MM-dd}");
                string said = days.Text("kind") switch
                {
                    "odd" => "odd",
                    "even" => "even",
                    "daysOfWeek" => words.Length == 0 ? "days none" : "days " + string.Join(' ', words),
                    "interval" => count.Length == 0 ? "every" : count,
                    null => "days none",
                    var other => $"days {other}",
                };
                if (DirectDays(days.Text("kind"), words, n, left, next) is { } direct)
                {
                    Ask(node, $"{letter}: {said}");
                    return direct;
                }

                return FirstOf(Quick(node, $"{letter}: {said}", Expected))?.Days;
            case { } node:
                return program.AsText(node, Expected) is { } text
                    ? FirstOf(Quick(node, $"{letter}: days {text.Text}", Expected))?.Days : null;
        }
    }

    /// <summary>Days as JSON writes them; null where they are said in other words.</summary>
    private static ReadDays? DirectDays(string? kind, string[] words, int? n, int? left, LocalDate? next)
    {
        IsoDayOfWeek[] weekdays = [.. words
            .Select(w => Enum.TryParse(w, ignoreCase: true, out IsoDayOfWeek day) && !char.IsAsciiDigit(w[0]) ? day : IsoDayOfWeek.None)];
        return weekdays.Contains(IsoDayOfWeek.None) ? null : kind switch
        {
            null => ReadDays.None,
            "odd" => new ReadDays(DayRuleKind.Odd, [], n, left, next),
            "even" => new ReadDays(DayRuleKind.Even, [], n, left, next),
            "daysOfWeek" => new ReadDays(DayRuleKind.DaysOfWeek, weekdays.Distinct().Order().ToListOf(), n, left, next),
            "interval" => new ReadDays(DayRuleKind.Interval, [], n, left, next),
            _ => null,
        };
    }

    /// <summary>What the quick form would ask about the same words.</summary>
    private void Ask(SurveyNode node, string text) => doubts.AddRange(
        ReadingText.Parse(text, profile, clock).Doubts.Where(d => !d.IsLeftOut)
            .Select(d => d with { Line = node.Line, Column = node.Column }));

    private static ReadProgram? FirstOf(Reading? reading) => reading?.Programs is [ReadProgram first, ..] ? first : null;

    /// <summary>Reads words of the quick form. What it would leave out is a problem of the file; what could be two things is a
    /// doubt.</summary>
    private Reading? Quick(SurveyNode node, string text, string expected)
    {
        ReadText read = ReadingText.Parse(text.ReplaceLineEndings(" "), profile, clock);
        if (read.Doubts.FirstOrDefault(d => d.IsLeftOut) is { } left)
        {
            findings.Refuse(node, expected, left.Why, left.Otherwise.Text.Length > 0 ? left.Otherwise.Text : null);
            return null;
        }

        doubts.AddRange(read.Doubts.Select(d => d with { Line = node.Line, Column = node.Column }));
        return read.Reading;
    }

    /// <summary>JSON writes seconds of times of day; no display shows them.</summary>
    private static string WithoutSeconds(string text) =>
        text.Length == 8 && text[2] == ':' && text.EndsWith(":00", StringComparison.Ordinal) ? text[..5] : text;
}
