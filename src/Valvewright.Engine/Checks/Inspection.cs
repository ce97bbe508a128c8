using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks;

/// <summary>All that the parts of a check need to know, and what they suspect.</summary>
internal sealed class Inspection
{
    public Inspection(Site site, SiteController controller, Plan? plan, Reading reading, CheckContext context)
    {
        Controller = controller;
        Reading = reading;
        At = reading.ReadAt ?? context.At;
        Words = new CheckWords(context.Language, site.Clock);
        World = new SiteWorld(site, controller, plan, At);
        Planned = plan?.Controllers.FirstOrDefault(c => c.Controller == controller.Name);
        Expected = Planned is null ? new AsFound(new Settings([])) : Expectation.Of(Planned, At.Date);
        RightClock = World.RightClock(At);
        ClockShows = ClockReading.Resolve(reading.Clock, RightClock);
        LocalDateTime? wrong = ClockReading.IsRight(ClockShows, RightClock) ? null : ClockShows;
        ControllerDate = (wrong ?? RightClock).Date;
        Found = Expectation.Found(reading, Expected, ControllerDate, RightClock.Date, wrong);
        Supply = controller.Supply;
        South = site.Place.LatitudeDeg < 0;
        Doubtful = context.Doubtful;
    }

    public SiteController Controller { get; }

    public Profile Profile => Controller.Profile;

    public Reading Reading { get; }

    /// <summary>Site time of the reading.</summary>
    public LocalDateTime At { get; }

    public CheckWords Words { get; }

    public SiteWorld World { get; }

    /// <summary>The plan for this controller, if there is one.</summary>
    public ControllerPlan? Planned { get; }

    public AsFound Expected { get; }

    public AsFound Found { get; }

    public LocalDateTime RightClock { get; }

    public LocalDateTime? ClockShows { get; }

    /// <summary>Today by the controller's own calendar.</summary>
    public LocalDate ControllerDate { get; }

    public string Supply { get; }

    /// <summary>Whether summer is in January.</summary>
    public bool South { get; }

    /// <summary>Parts of the reading that rest on a doubtful word.</summary>
    public ListOf<DoubtfulPart> Doubtful { get; }

    public List<Suspect> Suspects { get; } = [];

    /// <summary>Whether a suspicion rests on a doubtful word.</summary>
    public bool RestsOnDoubt(Suspect suspect)
    {
        bool whole = suspect.Kind
            is FindingKind.StationInNoProgram or FindingKind.StationInTwoPrograms or FindingKind.StationInWrongProgram or FindingKind.Overlap or FindingKind.SharedPipe;
        return Doubtful.Any(d => d.Program is { } letter ? whole || letter == suspect.Program : suspect.Kind switch
        {
            FindingKind.ClockWrong or FindingKind.IntervalWrongDay => d.Part == ReadPart.Clock,
            FindingKind.OffLeftOn => d.Part == ReadPart.OnOrOff,
            FindingKind.RainHoldLeft => d.Part == ReadPart.RainHold,
            FindingKind.PercentOutOfSeason => d.Part is ReadPart.Percent or ReadPart.OnOrOff,
            FindingKind.Overlap or FindingKind.RunsOff or FindingKind.SharedPipe => d.Part == ReadPart.Percent,
            _ => false,
        });
    }

    public void Suspect(
        FindingKind kind, Certainty certainty, char? program, ListOf<int> stations, string because, string outside,
            params ListOf<KeyChange> mend) =>
        Suspects.Add(new Suspect(kind, certainty, program, stations, because, outside, mend));

    /// <summary>The stations as a sentence begins with them.</summary>
    public string Capital(params IEnumerable<int> stations)
    {
        string text = Words.Stations(stations);
        return char.ToUpperInvariant(text[0]) + text[1..];
    }

    /// <summary>Seconds that a run time gives at a percent on this controller.</summary>
    public int AtPercent(int seconds, int percent) => Emulator.PercentOf(seconds, Math.Clamp(percent, 0, 1000), Profile.Rounding);
}
