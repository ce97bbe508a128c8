using System.CommandLine;
using NodaTime;
using NodaTime.Text;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Power;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Engine.Words;
using Valvewright.Files.Measured;
using Valvewright.Files.Plans;
using Valvewright.Work;
using Valvewright.Work.Measured;

namespace Valvewright.Cli.Commands.Measured;

/// <summary>How long batteries last under the plan, and what coils and wires allow.</summary>
internal static class BatteryCommand
{
    public static Job Make()
    {
        MeasuredArguments arguments = new();
        Option<string?> plan = new("--plan")
            { Description = "The saved plan whose pulses count. Default: out/plan.json next to the site file.", HelpName = "file" };
        Job job = new(
            "battery",
            "Work out how long each battery lasts under the plan, when to change it, and how long wires may be.",
            "valvewright battery demo/polder-green",
            "valvewright battery demo/polder-green --json");
        arguments.AddTo(job);
        job.Options.Add(plan);
        return job.Does((parse, sheet, cancel) => Run(arguments, parse, parse.GetValue(plan), sheet));
    }

    private static int Run(MeasuredArguments arguments, ParseResult parse, string? planFile, Sheet sheet)
    {
        (SiteFile file, SiteYears years) = SiteFile.ReadWithWeather(arguments.SitePath(parse), sheet.Progress);
        Site site = years.Site;
        sheet.Heading($"{site.Name}: batteries, coils and wires");
        MeasuredSite measured = arguments.Read(parse, file, sheet);
        MeasuredArguments.Caution(sheet, FieldCaution.ForPower);
        SavedPlan saved = file.ReadPlan(planFile);
        YearOfTemperatures? temperatures = YearOfTemperatures.Of(years.Weather.Record!.Days.Select(d => (d.Date, d.TminC, d.TmaxC)));
        if (temperatures is null) sheet.Say("The weather record has too few temperatures; 10 C all year is assumed.");
        temperatures ??= YearOfTemperatures.Steady(10);
        List<BatteryAnswer> batteries = [];
        foreach (MeasuredBattery battery in measured.Batteries)
        {
            ListOf<DoubtfulReading> doubts = battery.Volts is { } volts
                ? new BatteryReading(battery.Kind, volts, battery.LoadMilliamps, battery.TemperatureC).Doubts : [];
            MeasuredArguments.Settle(sheet, battery.Controller, doubts, battery.IsConfirmed);
            BatteryForecast forecast = BatteryForecast.Of(site, saved.Plan, battery, temperatures);
            batteries.Add(new BatteryAnswer(battery.Controller, forecast.Demand, forecast.Life, doubts));
        }

        foreach (BatteryAnswer answer in batteries) Show(sheet, answer);
        ListOf<CoilAnswer> coils = measured.Coils.Select(c => Coil(sheet, c)).ToListOf();
        FieldAmounts amounts = FieldAmounts.Of(site, sheet);
        foreach (CoilAnswer coil in coils) Show(sheet, amounts, coil);
        if (batteries.Count + coils.Count == 0) sheet
            .Say("No battery and no coil was measured. Add 'batteries:' or 'coils:' to the file of measurements.");
        sheet.Answer(new PowerAnswer(batteries.ToListOf(), coils));
        return batteries.Any(b => b.Life.ChangeBy <= file.Today) || coils.Any(c => c.State is not (null or CoilCondition.Sound))
            ? ExitCode.AnswerIsNo : ExitCode.Done;
    }

    private static CoilAnswer Coil(Sheet sheet, MeasuredCoil coil)
    {
        UncertainInput ohms = Own("coil ohms", coil.CoilOhms, 8, 0.5);
        CoilCircuit circuit = new(
            Own("source volts", coil.SourceVolts, 8.5, 0.15), Own("inner resistance", coil.SourceOhms, 1.5, 0.5),
                new UncertainInput("cold factor", 2, 0.25, true, "0 C, rule of thumb"),
            ohms, Own("least coil volts", coil.LeastVolts, 5, 0.2));
        double wire = coil is { Gauge: { } gauge, WireM: { } length } ? 2 * length * CopperWire.OhmsPerKm(gauge) / 1000 : 0;
        CoilTest? reading = coil.Ohms is { } measured ? new CoilTest(measured, coil.IsAtValve ? 0 : wire, ohms) : null;
        ListOf<DoubtfulReading> doubts = reading?.Doubts ?? [];
        MeasuredArguments.Settle(sheet, $"{coil.Controller} {coil.Station}", doubts, coil.IsConfirmed);
        return new CoilAnswer(
            coil.Controller, coil.Station, reading?.CoilOhms, reading?.State, reading?.Says,
            CopperWire.Gauges.Where(g => g is 18 or 16 or 14 || g == coil.Gauge)
                .Select(g => new GaugeAnswer(g, circuit.LongestM(g))).ToListOf(),
            coil is { Gauge: { } own, WireM: { } m } ? circuit.CoilVolts(own, m) : null, circuit.LeastCoilVolts.Value, doubts);
    }

    private static UncertainInput Own(Sentence name, double? own, double typical, double off) =>
        own is { } mine ? new UncertainInput(name, mine, 0.05, false, "your own")
            : new UncertainInput(name, typical, off, true, "TYPICAL; use the maker's data");

    private static void Show(Sheet sheet, BatteryAnswer answer)
    {
        BatteryLife life = answer.Life;
        sheet.Heading($"{answer.Controller}: {(Sentence)answer.Demand.Battery.Name}");
        sheet.Say(
            $"Change by {LocalDatePattern.Iso.Format(life.ChangeBy)}. Lasts {Days(life.Days.Value)} days ({Days(life.Days.Low)} to {Days(life.Days.High)}), until about {LocalDatePattern.Iso.Format(life.EmptyOn)}.");
        foreach (Sentence reason in life.Reasons) sheet.Say($"- {reason}", 2);
        sheet.Say(
            $"First year: standby {FieldAmounts.Number(life.Shares.StandbyMah, 0)} mAh, {FieldAmounts.Number(life.PulsesPerYear, 0)} pulses {FieldAmounts.Number(life.Shares.PulsesMah, 0)} mAh, self-discharge {FieldAmounts.Number(life.Shares.SelfDischargeMah, 0)} mAh.");
        Effects(sheet, life.Days, v => $"{Days(v)} d");
    }

    private static void Show(Sheet sheet, FieldAmounts amounts, CoilAnswer coil)
    {
        sheet.Heading($"{coil.Controller} station {coil.Station}: coil and wire");
        if (coil is { Ohms: { } ohms, Says: { } says }) sheet
            .Say(double.IsInfinity(ohms) ? $"Coil open: {says}" : (Sentence)$"Coil {FieldAmounts.Number(ohms, 1)} ohm: {says}");
        if (coil.CoilVolts is { } volts)
        {
            sheet.Say(
                $"Volts at the coil in the cold: {FieldAmounts.Range(volts, v => FieldAmounts.Number(v, 1))}; it needs {FieldAmounts.Number(
                coil.LeastVolts, 1)}.");
            if (volts.Low < coil.LeastVolts) sheet
                .Say("NOT SURE to latch: shorten the wire, take a thicker gauge, or change the battery earlier.");
        }

        foreach (GaugeAnswer gauge in coil.Longest) sheet
            .Say($"Longest {gauge.Gauge} AWG pair: {FieldAmounts.Range(gauge.LongestM, amounts.Length)}");
        Effects(sheet, coil.Longest[0].LongestM, amounts.Length);
    }

    private static void Effects(Sheet sheet, ResultRange spread, Func<double, string> show)
    {
        Table table = new("input, most important first", ">value", ">+- %", ">low", ">high", "source");
        foreach (InputEffect effect in spread.Effects)
        {
            table.Row(
                sheet.In(effect.Input.Name), FieldAmounts.Number(effect.Input.Value, effect.Input.Value < 10 ? 2 : 0),
                    FieldAmounts.Number(100 * effect.Input.Off, 0),
                show(effect.Low), show(effect.High), sheet.In(effect.Input.Source));
        }

        sheet.Show(table);
        if (spread.RestsOnTypicalValues) sheet.Say("TYPICAL values are in use (see 'source'); your own data would narrow the range.");
    }

    private static string Days(double days) => FieldAmounts.Number(days, 0);

    /// <summary>What <c>--json</c> prints.</summary>
    private sealed record PowerAnswer(ListOf<BatteryAnswer> Batteries, ListOf<CoilAnswer> Coils);

    private sealed record BatteryAnswer(string Controller, BatteryDemand Demand, BatteryLife Life, ListOf<DoubtfulReading> Doubtful);

    private sealed record CoilAnswer(
        string Controller, int Station, double? Ohms, CoilCondition? State, Sentence? Says, ListOf<GaugeAnswer> Longest,
            ResultRange? CoilVolts, double LeastVolts, ListOf<DoubtfulReading> Doubtful);

    private sealed record GaugeAnswer(int Gauge, ResultRange LongestM);
}
