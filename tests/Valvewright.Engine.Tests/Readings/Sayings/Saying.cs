using System.Globalization;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Tests;

namespace Valvewright.Engine.Tests.Readings.Sayings;

/// <summary>How a saying was understood.</summary>
public enum Verdict
{
    /// <summary>All settings as meant, and what must be doubted is doubted.</summary>
    Exact,

    /// <summary>The same, with a doubt where none was needed.</summary>
    ExactWithDoubts,

    /// <summary>Less than was meant, and it is said that something was not understood.</summary>
    Less,

    /// <summary>Something that was not meant, and it is asked about.</summary>
    WrongAndDoubted,

    /// <summary>Something that was not meant, or not all, without a word; or what must be doubted is not.</summary>
    SilentlyWrong,
}

/// <summary>A saying written by hand, and what was meant by it.</summary>
/// <param name="Display">G or N, as the head of the file says.</param>
/// <param name="Text">What is said.</param>
/// <param name="Meant">Settings by name.</param>
/// <param name="Doubted">Words of which one at least must be doubted; none where nothing must.</param>
public sealed record Saying(char Display, string Text, SortedDictionary<string, string> Meant, ListOf<string> Doubted)
{
    private static readonly ListOf<DayRuleKind> Rules = [DayRuleKind.DaysOfWeek, DayRuleKind.Odd, DayRuleKind.Even, DayRuleKind.Interval];

    /// <summary>The display it is read off.</summary>
    public Profile Profile => Display == 'G'
        ? new() { Name = "G", Stations = 4, Programs = 2, StartTimesPerProgram = 4, StartStepMinutes = 15, DayRules = Rules,
            LargestIntervalDays = 15, LargestRainHoldDays = 7 }
        : new() { Name = "N", Stations = 8, Programs = 3, StartTimesPerProgram = 4, RunTimeStepSeconds = 1, DayRules = Rules,
            LargestIntervalDays = 31, LargestRainHoldDays = 7 };

    /// <summary>How it shows times.</summary>
    public ClockStyle Clock => Display == 'G' ? ClockStyle.Hours24 : ClockStyle.Hours12;

    /// <summary>The names of the site.</summary>
    public SiteNames Names => Display == 'G'
        ? SiteNames.Of(["Gate", "Terrace"], [(1, "New lawn by the gate"), (2, "Old lawn"), (3, "Old plane trees")])
        : SiteNames.Of(["North", "South"], []);

    /// <summary>The text as understood.</summary>
    public ReadText Read() => ReadingText.Parse(Text, Profile, Clock, Names);

    /// <summary>The sayings of a file in this folder.</summary>
    public static ListOf<Saying> In(string file) =>
        File.ReadLines(Path.Combine(Checkout.Root, "tests", "Valvewright.Engine.Tests", "Readings", "Sayings", file))
            .Where(l => l.Length > 2 && l[0] != '#').Select(Parse).ToListOf();

    /// <summary>How it was understood.</summary>
    public Verdict Judge()
    {
        ReadText read = Read();
        SortedDictionary<string, string> got = Settings(read.Reading);
        HashSet<string> doubtful = [.. read.DoubtfulParts.Select(NameOf)];
        bool wrong = false, less = false, silent = false;
        foreach (string name in Meant.Keys.Union(got.Keys).Where(n => Meant.GetValueOrDefault(n) is not ("?" or "")))
        {
            string? wanted = Meant.GetValueOrDefault(name), found = got.GetValueOrDefault(name);
            if (wanted != found)
            {
                wrong |= found is not null;
                less |= found is null;
                silent |= found is null ? read.Doubts.Count == 0 : !doubtful.Contains(name);
            }
        }

        bool asked = Doubted.Count == 0
            || Doubted.Any(w => read.Doubts.Any(d => d.Found.Length > 0 && (Has(d.Found, w) || Has(w, d.Found))));
        return silent || (!wrong && !less && !asked) ? Verdict.SilentlyWrong
            : wrong ? Verdict.WrongAndDoubted
            : less ? Verdict.Less
            : read.Doubts.Count == 0 || Doubted.Count > 0 ? Verdict.Exact : Verdict.ExactWithDoubts;

        static bool Has(string text, string part) => text.Contains(part, StringComparison.OrdinalIgnoreCase);
    }

    private static Saying Parse(string line)
    {
        string[] parts = line.Split(" ## ");
        SortedDictionary<string, string> meant = new(StringComparer.Ordinal);
        foreach (string setting in parts[2].Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            int equals = setting.IndexOf('=', StringComparison.Ordinal);
            meant[setting[..equals]] = Ordered(setting[..equals], setting[(equals + 1)..]);
        }

        return new Saying(parts[0][0], parts[1].Replace("\\n", "\n", StringComparison.Ordinal), meant,
            parts.Length > 3 ? parts[3].Split(" / ").ToListOf() : []);
    }

    private static string Ordered(string name, string value) => value is "" or "?" or "none" ? value
        : name.EndsWith(".t", StringComparison.Ordinal) ? string.Join(',', value.Split(',').Order(StringComparer.Ordinal))
        : name.EndsWith(".r", StringComparison.Ordinal)
            ? string.Join(',', value.Split(',').Select(RunOf).OrderBy(r => r.Station).Select(Written))
        : value;

    private static (int Station, int Seconds) RunOf(string text)
    {
        string[] parts = text.Split(':');
        bool seconds = parts[1].EndsWith('s');
        return (int.Parse(parts[0], CultureInfo.InvariantCulture),
            int.Parse(parts[1].TrimEnd('s'), CultureInfo.InvariantCulture) * (seconds ? 1 : 60));
    }

    private static string Written((int Station, int Seconds) run) =>
        run.Seconds % 60 == 0 ? $"{run.Station}:{run.Seconds / 60}" : $"{run.Station}:{run.Seconds}s";

    private static SortedDictionary<string, string> Settings(Reading reading)
    {
        SortedDictionary<string, string> found = new(StringComparer.Ordinal);
        foreach (ReadProgram program in reading.Programs)
        {
            Add($"{program.Letter}.t", program.StartTimes is { } starts ? List(starts.Select(s => $"{s:HHmm}")) : null);
            Add($"{program.Letter}.r", program.RunTimes is { } runs ? List(runs.Select(r => Written((r.Station, r.Seconds)))) : null);
            Add($"{program.Letter}.d", program.Days is { } days ? DaysOf(days) : null);
        }

        Add("pct", reading.Percent?.ToString(CultureInfo.InvariantCulture));
        Add("off", reading.Off switch { true => "yes", false => "no", null => null });
        Add("hold", reading.RainHoldDays?.ToString(CultureInfo.InvariantCulture));
        Add("who", reading.Controller);
        Add("read", reading.ReadAt is { } at ? $"{at:uuuu-MM-dd'T'HH:mm}" : null);
        Add("clock", reading.Clock is { } clock ? $"{clock.Weekday?.ToString()[..3].ToLowerInvariant() ?? "-"},{clock.Time:HH:mm}" : null);
        return found;

        void Add(string name, string? value)
        {
            if (value is not null)
            {
                found[name] = value;
            }
        }

        static string List(IEnumerable<string> items) => string.Join(',', items) is { Length: > 0 } text ? text : "none";
    }

    private static string DaysOf(ReadDays days) => days.Kind switch
    {
        null => "none",
        DayRuleKind.Odd => "odd",
        DayRuleKind.Even => "even",
        DayRuleKind.DaysOfWeek => string.Concat(days.Weekdays.Select(d => (int)d)),
        _ => $"I{days.IntervalDays}" + (days.DaysLeft is { } left ? $"/{left}" : "") + (days.Next is { } next ? $"@{next:uuuu-MM-dd}" : ""),
    };

    private static string NameOf(DoubtfulPart part) => part.Part switch
    {
        ReadPart.StartTimes => $"{part.Program}.t",
        ReadPart.RunTimes => $"{part.Program}.r",
        ReadPart.WaterDays => $"{part.Program}.d",
        ReadPart.Percent => "pct",
        ReadPart.OnOrOff => "off",
        ReadPart.RainHold => "hold",
        _ => "clock",
    };
}
