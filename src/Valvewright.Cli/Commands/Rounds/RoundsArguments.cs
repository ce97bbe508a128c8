using System.CommandLine;
using System.Globalization;
using NodaTime.Text;
using Valvewright.Cli.Output;
using Valvewright.Files.Problems;
using Valvewright.Work.Search.Rounds;

namespace Valvewright.Cli.Commands.Rounds;

/// <summary>What can be said to rounds.</summary>
internal sealed class RoundsArguments
{
    public const int MostPeople = 30;
    private const int MostDays = 31;
    private static readonly LocalTimePattern Time = LocalTimePattern.CreateWithInvariantCulture("H:mm");

    public Argument<string[]> Sites { get; } = new("sites")
        { Description = "Site files or their folders, or a folder of such folders.", Arity = ArgumentArity.ZeroOrMore };

    public Option<string?> Store { get; } = new("--store") { Description = "Take the sites of a store instead.", HelpName = "store" };

    public Option<LocalDate?> Today { get; } = SiteArguments.Date("--today", "The first day; today when not given.");

    public Option<bool> Advice { get; } = new("--advice")
        { Description = "Only this year's advice, one line per controller; with --out also as advice.ics and advice.json." };

    public Option<string?> Out { get; } = new("--out")
        { Description = "Where to write the run sheets (rounds.pdf) and a picture of each day.", HelpName = "folder" };

    private Option<int> Days { get; } = Number("--days", "Working days to plan, Monday to Friday.", 5);

    private Option<int> People { get; } = Number("--people", "How many people drive.", 1);

    private Option<string> Hours { get; } = new("--hours")
        { Description = "From leaving to being back.", HelpName = "7:30-16:00", DefaultValueFactory = _ => "7:30-16:00" };

    private Option<string?> Start { get; } = new("--start")
        { Description = "Where people start, in degrees. Without it there are no day routes.", HelpName = "lat,lon" };

    private Option<string?> End { get; } = new("--end") { Description = "Where they end; the start when not given.", HelpName = "lat,lon" };

    private Option<int> Stop { get; } = Number("--stop-minutes", "Minutes at each stop on top of the work.", 5);

    private Option<double> Speed { get; } = new("--speed") { Description = "Mean speed on the road, km/h.", HelpName = "km/h",
        DefaultValueFactory = _ => TravelTimes.UsualSpeedKmh };

    private Option<double> Road { get; } = new("--road-factor") { Description = "Road length over straight distance.", HelpName = "n",
        DefaultValueFactory = _ => TravelTimes.UsualRoadFactor };

    private Option<string?> Travel { get; } = new("--travel")
        { Description = "Your own travel times: a table 'from,to,minutes'. The names: the sites, 'Start', 'End'.", HelpName = "file" };

    private Option<string?> Promised { get; } = new("--promised")
        { Description = "Dates that were promised: a table 'site,date,from,to'.", HelpName = "file" };

    public Option<string?> Done { get; } = new("--done")
        { Description = "Visits that were made: a table 'site,controller,date,percent'.", HelpName = "file" };

    /// <summary>Puts them on the command.</summary>
    public void AddTo(Job job)
    {
        job.Arguments.Add(Sites);
        foreach (Option option in new Option[]
            { Store, Today, Days, People, Hours, Start, End, Stop, Speed, Road, Travel, Promised, Done, Advice, Out })
        {
            job.Options.Add(option);
        }
    }

    /// <summary>The working days.</summary>
    public ListOf<LocalDate> DaysFrom(ParseResult parse, LocalDate today) => Enumerable.Range(0, 2 * MostDays).Select(today.PlusDays)
        .Where(d => d.DayOfWeek is not (IsoDayOfWeek.Saturday or IsoDayOfWeek.Sunday)).Take(Within(parse, Days, 1, MostDays)).ToListOf();

    /// <summary>Whether day routes are asked for.</summary>
    public bool WantsRoutes(ParseResult parse) => parse.GetValue(Start) is not null;

    /// <summary>The day routes that are asked for.</summary>
    public RoundsRequest Request(
        ParseResult parse, ListOf<Work.Rounds.DueItem> due, ListOf<NamedPlace> sites, ListOf<LocalDate> days)
    {
        (LocalTime leaves, LocalTime back) = HoursOf(parse.GetValue(Hours)!);
        NamedPlace start = new("Start", PlaceOf(Start.Name, parse.GetValue(Start)!));
        NamedPlace end = new("End", parse.GetValue(End) is { } given ? PlaceOf(End.Name, given) : start.Place);
        string[] names = [.. sites.Select(s => s.Name)];
        (double speed, double road) = (parse.GetValue(Speed), parse.GetValue(Road));
        return speed is not (>= 1 and <= 150) ? throw Wrong(Speed.Name, $"{speed}", "1 to 150 km/h")
            : road is not (>= 1 and <= 10) ? throw Wrong(Road.Name, $"{road}", "1 to 10")
            : new RoundsRequest
            {
                Due = due, Sites = sites, Days = days, People = Within(parse, People, 1, MostPeople), Leaves = leaves, Back = back,
                Start = start, End = end, MinutesPerStop = Within(parse, Stop, 0, 240),
                Promised = RoundsTables.Promised(parse.GetValue(Promised), names),
                Travel = new TravelTimes(road, speed, RoundsTables.Travel(parse.GetValue(Travel), [.. names, "Start", "End"])),
            };
    }

    private static int Within(ParseResult parse, Option<int> option, int least, int most) => parse.GetValue(option) is var n
        && n >= least && n <= most ? n : throw Wrong(option.Name, $"{n}", $"{least} to {most}");

    private static (LocalTime Leaves, LocalTime Back) HoursOf(string text) =>
        text.Split('-') is [var from, var to] && Time.Parse(from.Trim()) is { Success: true } leaves
        && Time.Parse(to.Trim()) is { Success: true } back && leaves.Value < back.Value
            ? (leaves.Value, back.Value) : throw Wrong("--hours", text, "two times of a day, as 7:30-16:00");

    private static Place PlaceOf(string name, string text) => text.Split(',') is [var lat, var lon] && Degrees(lat, 90) is { } north
        && Degrees(lon, 180) is { } east ? new Place(north, east, 0) : throw Wrong(name, text, "latitude and longitude, as 38.29,-122.46");

    private static double? Degrees(string text, double most) => double.TryParse(
        text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && Math.Abs(value) <= most ? value : null;

    private static ProblemsException Wrong(string where, string found, Sentence expected) =>
        new(new Problem(where, 0, 0, Printable.Of(found), expected, null, "this can't be used"));

    private static Option<int> Number(string name, string description, int usual) =>
        new(name) { Description = description, HelpName = "n", DefaultValueFactory = _ => usual };
}
