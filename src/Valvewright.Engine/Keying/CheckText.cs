using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Keying;

/// <summary>Five signs that stand for all programs of a controller: equal programs give equal signs, a slip gives others.</summary>
/// <remarks>
/// <para>
/// Computed over what the controller will do, not over how it was keyed: the order of start times, equal start times, the
/// date an interval is counted from (only its remainder counts) and programs that can never run make no difference.
/// The percent adjust is left out because it changes from visit to visit while the programs stay.
/// </para>
/// <para>
/// The programs that can run, by letter, are written as in <see cref="SettingsText"/> with intervals as <c>I3+1</c>
/// (remainder of the days from 2000-01-01), joined by slashes; the first eight bytes of the SHA-256 of that text, as a
/// big-endian number, give five digits to base 20, lowest first. Two different settings agree by chance once in 3.2 million.
/// </para>
/// </remarks>
public static class CheckText
{
    /// <summary>Signs that are hard to mistake for one another in print or handwriting: no 0/O, 1/I/L, 2/Z, 5/S, 8/B, U/V.</summary>
    public const string Signs = "34679ACDEFHJKMNPRTWX";

    /// <summary>How many signs a check text has.</summary>
    public const int Length = 5;

    /// <summary>The check text of all programs.</summary>
    public static string Of(Settings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return Of(string.Join('/', settings.Programs.Where(CanRun).OrderBy(p => p.Letter).Select(Canonical)));
    }

    /// <summary>Whether a program has all that it takes to run: a start time, a run time and a watering day.</summary>
    public static bool CanRun(Program program)
    {
        ArgumentNullException.ThrowIfNull(program);
        return program.StartTimes.Count > 0
            && program.RunTimes.Any(r => r.Seconds > 0)
            && program.Days is not (null or DaysOfWeek { Days.Count: 0 });
    }

    private static string Canonical(Program program) => SettingsText.OfProgram(
        program with
        {
            StartTimes = program.StartTimes.Distinct().Order().ToListOf(),
            RunTimes = program.RunTimes.Where(r => r.Seconds > 0).OrderBy(r => r.Station).ToListOf(),
        },
        Rule);

    private static string Rule(DayRule? rule) => rule switch
    {
        DaysOfWeek week => "W" + SettingsText.Digits(week.Days.Distinct().Order()),
        OddDays => "ODD",
        EvenDays => "EVEN",
        EveryNDays every => $"I{every.Days}+{Remainder(every)}",
        _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "A kind of watering days without a written form."),
    };

    private static int Remainder(EveryNDays every)
    {
        int since = Period.DaysBetween(ClockSeconds.Epoch.Date, every.Anchor) % every.Days;
        return since < 0 ? since + every.Days : since;
    }

    private static string Of(string canonical)
    {
        ulong number = BinaryPrimitives.ReadUInt64BigEndian(SHA256.HashData(Encoding.ASCII.GetBytes(canonical)));
        return string.Create(Length, number, (signs, rest) =>
        {
            for (int i = 0; i < signs.Length; i++)
            {
                signs[i] = Signs[(int)(rest % (ulong)Signs.Length)];
                rest /= (ulong)Signs.Length;
            }
        });
    }
}
