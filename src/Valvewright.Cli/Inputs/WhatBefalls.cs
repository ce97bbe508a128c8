using System.CommandLine;
using System.Globalization;
using NodaTime.Text;
using Valvewright.Cli.Output;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Quantities;
using Valvewright.Files.Problems;

namespace Valvewright.Cli.Inputs;

/// <summary>What befalls controllers besides their plan, as options of a command say it: rain delays, off, a wrong clock, runs by hand, no
/// power.</summary>
internal sealed partial class WhatBefalls
{
    private const double UsualThresholdMm = 6;
    private const int UsualDryOutHours = 24;
    private const int MostDriftSeconds = 3600;

    private static readonly LocalDateTimePattern[] Moments =
    [
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm"),
            LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm"), LocalDateTimePattern.GeneralIso,
    ];

    private static readonly LocalTimePattern Hours = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    private readonly Option<string[]> hold = Many("--hold", "A rain delay: when it is set, and for how many days.", "date[Thh:mm],days");
    private readonly Option<string[]> off = Many("--off", "Switched off: the first and the last date, or two times.", "from..to");
    private readonly Option<string[]> clock = Many("--clock", "The clock is set wrong: when, and what it shows then.",
        "\"datethh:mm shows hh:mm\"");
    private readonly Option<string[]> percent = Many("--percent", "Percent adjust is set to another value until the next visit; 0 is off.",
        "date[Thh:mm],percent");
    private readonly Option<string[]> manual = Many("--manual",
        "A manual run: when, and which station for how many minutes, or which program.", "dateThh:mm,station,minutes");
    private readonly Option<string[]> rain = Many("--rain", "Rain on the rain sensor at the start of a date.", "date,amount");
    private readonly Option<string?> sensor = new("--sensor")
    {
        Description = $"Rain that makes the sensor wet, and hours until it is dry again. "
            + $"Default: {UsualThresholdMm} mm, {UsualDryOutHours} h.",
        HelpName = "amount,hours",
    };

    private readonly Option<string[]> noPower = Many("--no-power",
        "Time without power, and what the clock shows afterwards. Default: the clock kept time.", "from..to[,hh:mm]");
    private readonly Option<int?> drift = new("--drift")
    {
        Description = "Seconds that the clock gains each day; negative if it loses.",
        HelpName = "seconds",
    };

    private readonly Option<string[]> daysLeft = Many("--days-left", "What a days-left counter showed when the plan was set.",
        "program=days");

    private readonly List<Problem> problems = [];

    /// <summary>All options.</summary>
    public IEnumerable<Option> Options => [hold, off, clock, percent, manual, rain, sensor, noPower, drift, daysLeft];

    /// <summary>Reads them; null where nothing was said.</summary>
    /// <exception cref="ProblemsException">Something cannot be read, or a controller that it is meant for cannot do it.</exception>
    public Func<SiteController, Circumstances, Circumstances>? Read(ParseResult parse, Site site, string? only)
    {
        RainHold[] holds = [.. Values(parse, hold).Select(HoldOf).OfType<RainHold>()];
        OffSpell[] offs = [.. Values(parse, off).Select(OffOf).OfType<OffSpell>()];
        ClockSetting[] clocks = [.. Values(parse, clock).Select(ClockOf).OfType<ClockSetting>().OrderBy(c => c.At)];
        (LocalDateTime At, int Percent)[] percents = [.. Values(parse, percent).Select(PercentOf).OfType<(LocalDateTime, int)>()];
        RunByHand[] runs = [.. Values(parse, manual).Select(RunOf).OfType<RunByHand>().OrderBy(r => r.At)];
        PowerLoss[] losses = [.. Values(parse, noPower).Select(LossOf).OfType<PowerLoss>()];
        DaysLeft[] counters = [.. Values(parse, daysLeft).Select(CounterOf).OfType<DaysLeft>()];
        RainSensor? wet = SensorOf(parse, site);
        int gain = parse.GetValue(drift) ?? 0;
        Must(Math.Abs(gain) <= MostDriftSeconds, "--drift", $"{gain}", $"{-MostDriftSeconds} to {MostDriftSeconds} seconds in a day",
            "no clock drifts so far");
        foreach (SiteController controller in site.Controllers.Where(c => only is null || c.Name == only))
        {
            Check(controller, holds, runs, counters, wet);
        }

        if (problems.Count > 0)
        {
            throw new ProblemsException(problems.Distinct().ToListOf());
        }

        bool any = holds.Length + offs.Length + clocks.Length + percents.Length + runs.Length + losses.Length + counters.Length > 0
            || wet is not null || gain != 0;
        return !any ? null : (controller, told) => told with
        {
            RainHolds = holds.ToListOf(),
            Off = told.Off.Concat(offs).ToListOf(),
            ClockSettings = clocks.ToListOf(),
            Rekeyings = With(told, percents),
            RunsByHand = runs.ToListOf(),
            Sensor = wet,
            DriftMillisecondsPerDay = 1000 * gain,
            DaysLeft = counters.ToListOf(),
            PowerLosses = losses.Select(l => l with
            {
                SettingsThen = controller.Profile.KeepsSettingsWithoutPower ? null : new Settings([]),
            }).ToListOf(),
        };
    }

    private static Option<string[]> Many(string name, string description, string help) =>
        new(name) { Description = description, HelpName = help, Arity = ArgumentArity.OneOrMore };

    private static string[] Values(ParseResult parse, Option<string[]> option) => parse.GetValue(option) ?? [];

    private static ListOf<Rekeying> With(Circumstances told, (LocalDateTime At, int Percent)[] percents)
    {
        List<Rekeying> all = [.. told.Rekeyings];
        foreach ((LocalDateTime at, int percent) in percents)
        {
            if (told.Rekeyings.LastOrDefault(r => r.At <= at) is { } before)
            {
                all.Add(new Rekeying(at, before.Settings with { PercentAdjust = percent }));
            }
        }

        return all.OrderBy(r => r.At).ToListOf();
    }

    private void Check(SiteController controller, RainHold[] holds, RunByHand[] runs, DaysLeft[] counters, RainSensor? wet)
    {
        Profile profile = controller.Profile;
        foreach (RainHold hold in holds.Where(h => h.Days < 1 || h.Days > profile.LargestRainHoldDays))
        {
            Must(false, "--hold", $"{hold.Days} days", profile.LargestRainHoldDays == 0 ? "--off with two dates"
                : (Sentence)$"1 to {profile.LargestRainHoldDays} days",
                profile.LargestRainHoldDays == 0 ? (Sentence)$"{controller.Name} has no rain delay"
                    : $"{controller.Name} has no rain delay of this length");
        }

        foreach (RunByHand run in runs)
        {
            Must(run.Station <= profile.Stations, "--manual", $"station {run.Station}",
                $"a station from 1 to {profile.Stations}, or --controller with another controller",
                $"{controller.Name} has no such station");
            Must(run.Program == StationRun.ByHand || run.Program - 'A' < profile.Programs, "--manual", $"program {run.Program}",
                $"A to {Profile.LetterOf(profile.Programs - 1)}", $"{controller.Name} has no such program");
        }

        Must(wet is null || profile.HasSensorInput, "--rain", controller.Name,
            "a controller with an input for a rain sensor ('sensor input: yes' in its profile)",
            "a rain sensor cannot be wired to this controller");
        Must(counters.Length == 0 || profile.IntervalCountsDaysLeft, "--days-left", controller.Name,
            "a controller that counts days left ('interval counts days left: yes' in its profile)",
            "this controller counts intervals from a date");
    }
}
