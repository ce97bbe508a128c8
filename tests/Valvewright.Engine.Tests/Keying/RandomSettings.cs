using CsCheck;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Keying;

/// <summary>Settings of every shape that a profile of up to 12 stations, 4 programs and 8 starts can hold.</summary>
internal static class RandomSettings
{
    private static readonly Gen<DayRule?> Rules = Gen.OneOf(
        Gen.Int[0, 2].Select(kind => kind switch { 0 => null, 1 => (DayRule?)new OddDays(), _ => new EvenDays() }),
        Gen.Int[0, 127].Select(bits =>
            (DayRule?)new DaysOfWeek([.. Enumerable.Range(1, 7).Where(d => (bits >> (d - 1) & 1) == 1).Select(d => (IsoDayOfWeek)d)])),
        Gen.Select(Gen.Int[1, 30], Gen.Int[-4000, 20000])
            .Select((n, day) => (DayRule?)new EveryNDays(n, ClockSeconds.Epoch.Date.PlusDays(day))));

    private static readonly Gen<ListOf<LocalTime>> Starts =
        Gen.Int[0, 1439].Select(m => new LocalTime(m / 60, m % 60)).HashSet[0, 8].Select(set => set.Order().ToListOf());

    private static readonly Gen<ListOf<RunTime>> Runs =
        Gen.Select(Gen.Int[1, 12].HashSet[0, 12], Gen.Int[1, 14400].Array[12])
            .Select((stations, seconds) => stations.Order().Select(s => new RunTime(s, seconds[s - 1])).ToListOf());

    private static readonly Gen<Program> Program = Gen.Select(Rules, Starts, Runs)
        .Select((rule, starts, runs) => new Program('A', starts, runs, rule));

    public static readonly Gen<Settings> Any = Gen.Select(Program.Array[0, 4], Gen.Int[0, 200])
        .Select((programs, percent) => new Settings([.. programs.Select((p, i) => p with { Letter = Profile.LetterOf(i) })], percent));
}
