using System.Text.Json;
using Jint;
using Jint.Native.Object;
using NodaTime;
using Valvewright.App.Ready;
using Valvewright.App.Tests.Ready;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Keying;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Values;
using Valvewright.Files.Texts;
using Valvewright.Files.Visits;
using Valvewright.Records;
using Valvewright.Tests;

namespace Valvewright.App.Tests.Pages.Visits;

/// <summary>What the script of the work at a controller (wwwroot/js/flow) makes of a site's sheet, beside what the engine makes of the plan
/// itself.</summary>
public sealed class AtControllerScriptTests
{
    private const string Helpers = """
        import { cellsOf, plannedOn, programsLeft, changes, left, found } from './settings.js';
        import { checkText } from './checktext.js';
        import { readingText } from './reading.js';
        import { dayOf, isoOf } from './dates.js';
        const visit = (answers, confirmed, ticks) => ({ answers, confirmed, ticks, skipped: {}, refused: {} });
        const begin = (sheet, iso) => { const c = JSON.parse(sheet).controllers[0], day = dayOf(iso); return { c, day, cells: cellsOf(c, iso, day, isoOf(day - 1)) }; };
        export const card = (sheet, iso) => checkText(plannedOn(begin(sheet, iso).c, iso).programs);
        export const percent = (sheet, iso) => plannedOn(begin(sheet, iso).c, iso).percent;
        const all = (cells, day) => Object.fromEntries(cells.map(x => [x.key, x.kind === 'clock' ? { weekday: 1, second: 0 } : x.want]));
        export function keyed(sheet, iso) { const { c, day, cells } = begin(sheet, iso); return checkText(programsLeft(visit({}, true, all(cells, day)), cells, day)); }
        export function text(sheet, iso, language) { const { c, day, cells } = begin(sheet, iso); const v = visit({}, true, all(cells, day)); return readingText(cells.slice(1), x => left(v, x), c, language, day); }
        export function says(sheet, iso, answers, confirmed) {
          const { c, day, cells } = begin(sheet, iso), v = visit(JSON.parse(answers), confirmed, {}), programs = programsLeft(v, cells, day);
          return JSON.stringify({ found: readingText(cells, x => found(v, x), c, 'en', day), left: readingText(cells, x => left(v, x), c, 'en', day), check: programs && checkText(programs), changes: changes(v, cells).map(x => x.key) });
        }
        """;

    private readonly Garden garden = new();
    private readonly ObjectInstance script;
    private readonly Engine.Survey.SiteController gate;
    private readonly ControllerPlan planned;

    public AtControllerScriptTests()
    {
        Jint.Engine engine = new(o => o.EnableModules(Path.Combine(Checkout.Root, "src", "Valvewright.App", "wwwroot", "js", "flow")));
        engine.Modules.Add("helpers", Helpers.Replace("'./", $"'{Folder}/", StringComparison.Ordinal));
        script = engine.Modules.Import("helpers");
        gate = garden.All.Site.Site.ControllerNamed("Gate");
        planned = garden.Plan.For("Gate");
    }

    private static string Folder => new Uri(Path.Combine(Checkout.Root, "src", "Valvewright.App", "wwwroot", "js", "flow")).AbsoluteUri;

    [Theory]
    [InlineData("2026-02-28")]
    [InlineData("2026-03-01")]
    [InlineData("2026-06-14")]
    [InlineData("2026-06-15")]
    [InlineData("2026-12-31")]
    [InlineData("2028-02-29")]
    public void The_card_of_a_date_is_the_plans(string date)
    {
        LocalDate on = NodaTime.Text.LocalDatePattern.Iso.Parse(date).Value;
        string sheet = Sheet();
        Assert.Equal(CheckText.Of(planned.SettingsOn(on)), Call("card", sheet, date));
        Assert.Equal(Spell.Of(planned, on, on).Single().Percent.ToString(System.Globalization.CultureInfo.InvariantCulture),
            Call("percent", sheet, date));
        Assert.Equal(CheckText.Of(planned.SettingsOn(on)), Call("keyed", sheet, date));
    }

    [Theory]
    [InlineData("en", "2026-04-09")]
    [InlineData("es", "2026-06-15")]
    public void What_it_writes_is_read_without_a_doubt_as_what_was_keyed_in(string language, string date)
    {
        LocalDate on = NodaTime.Text.LocalDatePattern.Iso.Parse(date).Value;
        ReadText read = ReadingText.Parse(Call("text", Sheet(), date, language), gate.Profile, garden.All.Site.Site.Clock);
        Assert.Empty(read.Doubts);
        Engine.Checks.LeftAsPlanned match = Engine.Checks.LeftAsPlanned.Of(gate, planned, read.Reading, on.At(new LocalTime(9, 0)));
        Assert.True(match.Matches, $"{match.Check} {match.CardCheck} {match.PercentFits} {string.Join(',', match.Unread)}");
    }

    /// <summary>Five hundred sets of programs: the signs worked out by the script are the engine's.</summary>
    [Fact]
    public void Check_texts_are_the_engines()
    {
        Random random = new(7);
        for (int i = 0; i < 500; i++)
        {
            ListOf<Engine.Controllers.Program> programs = Enumerable.Range(0, gate.Profile.Programs)
                .Select(p => Any(random, Profile.LetterOf(p))).ToListOf();
            Plan plan = new("x", [new ControllerPlan("Gate", new Settings(programs), [])]);
            Assert.Equal(CheckText.Of(new Settings(programs)), Call("card", Sheet(plan), "2026-05-14"));
        }
    }

    [Fact]
    public void Nothing_is_recorded_that_nobody_said()
    {
        JsonElement silent = Says("{}", confirmed: false);
        Assert.Equal("", silent.GetProperty("found").GetString());
        Assert.Equal("", silent.GetProperty("left").GetString());
        Assert.Equal(JsonValueKind.Null, silent.GetProperty("check").ValueKind);

        JsonElement blind = Says("""{"A start 2":{"unread":true}}""", confirmed: true);
        Assert.DoesNotContain("07:30", blind.GetProperty("found").GetString()!.Split('\n')
            .Single(l => l.StartsWith("A:", StringComparison.Ordinal)), StringComparison.Ordinal);
        Assert.Equal(JsonValueKind.Null, blind.GetProperty("check").ValueKind);

        JsonElement one = Says("""{"A station 1":{"v":600}}""", confirmed: false);
        Assert.Equal("A: st1=10m", one.GetProperty("found").GetString());
    }

    [Fact]
    public void What_differs_is_to_change_in_the_order_of_the_card()
    {
        JsonElement said = Says(
            """{"B station 3":{"v":60},"A start 2":{"v":44100},"clock":{"v":{"weekday":1,"second":0}}}""", confirmed: true);
        Assert.Equal(["clock", "A start 2", "B station 3"],
            said.GetProperty("changes").EnumerateArray().Select(c => c.GetString()!).ToArray());
        Assert.NotEqual(CheckText.Of(planned.SettingsOn(new LocalDate(2026, 4, 9))), said.GetProperty("check").GetString());
    }

    [Fact]
    public void The_last_visit_says_what_to_expect_there()
    {
        LastVisit last = SheetMaker.LastOf(
            [new VisitValue("Gate", new LocalDateTime(2026, 3, 2, 9, 0), "",
                "percent 50\non\nA: days Mon; starts 07:30 12:15; st1=14m st2=0m st3=0m", 8.9, [], 12.5, "")]);
        JsonElement said = Says("{}", confirmed: true, new Dictionary<string, LastVisit> { ["Gate"] = last });
        Assert.Equal(["A start 2", "percent"], said.GetProperty("changes").EnumerateArray().Select(c => c.GetString()!).ToArray());
        Assert.Contains("07:30 12:15", said.GetProperty("found").GetString(), StringComparison.Ordinal);
    }

    private static Engine.Controllers.Program Any(Random random, char letter) => new(
        letter,
        [.. Enumerable.Range(0, random.Next(4)).Select(_ => LocalTime.FromSecondsSinceMidnight(random.Next(1440) * 60))],
        [.. Enumerable.Range(1, 4).Where(_ => random.Next(2) == 0).Select(s => new RunTime(s, random.Next(200) * 30))],
        random.Next(5) switch
        {
            0 => null,
            1 => new OddDays(),
            2 => new EvenDays(),
            3 => new EveryNDays(random.Next(1, 31), new LocalDate(2026, 1, 1).PlusDays(random.Next(400))),
            _ => new DaysOfWeek([.. Enumerable.Range(1, 7).Where(_ => random.Next(2) == 0).Select(d => (IsoDayOfWeek)d)]),
        });

    private JsonElement Says(string answers, bool confirmed, IReadOnlyDictionary<string, LastVisit>? last = null) =>
        JsonSerializer.Deserialize<JsonElement>(script.Get("says").Call(Sheet(null, last), "2026-04-09", answers, confirmed).AsString());

    private string Call(string function, params string[] given) =>
        script.Get(function).Call([.. given.Select(g => new Jint.Native.JsString(g))]).ToString();

    private string Sheet(Plan? plan = null, IReadOnlyDictionary<string, LastVisit>? last = null) =>
        new VisitSheet(garden.All.Site.Site, Guid.Empty, "1", plan ?? garden.Plan, new LocalDate(2026, 2, 1),
            new MeasuredLimits(1.7, 1.5, 1.3, 6, 1.5, 3, 12, 1000))
            .Write(last ?? new Dictionary<string, LastVisit>(), Language.English, Instant.FromUtc(2026, 4, 8, 12, 0), "m");
}
