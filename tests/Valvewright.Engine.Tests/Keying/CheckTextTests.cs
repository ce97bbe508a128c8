using System.Globalization;
using System.Numerics;
using System.Security.Cryptography;
using System.Text;
using CsCheck;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Keying;
using Valvewright.Engine.Values;
using Valvewright.Tests;

namespace Valvewright.Engine.Tests.Keying;

/// <summary>The check text follows what the controller will do.</summary>
public sealed class CheckTextTests
{
    private static readonly Program One = new('A', [new LocalTime(4, 0), new LocalTime(5, 30)], [new RunTime(1, 720), new RunTime(2, 480)],
        new EveryNDays(3, new LocalDate(2026, 7, 2)));

    [Fact]
    public void It_is_worked_out_as_described()
    {
        // 2026-07-02 is 9679 days after 2000-01-01 (26 x 365 + 7 leap days + 182), which leaves 1 by 3. The digits by schoolbook division.
        byte[] hash = SHA256.HashData(Encoding.ASCII.GetBytes("A I3+1 T0400 0530 S1:12 2:8"));
        BigInteger number = BigInteger.Parse("0" + Convert.ToHexString(hash, 0, 8), NumberStyles.HexNumber);
        StringBuilder expected = new();
        for (int i = 0; i < 5; i++)
        {
            number = BigInteger.DivRem(number, 20, out BigInteger digit);
            expected.Append("34679ACDEFHJKMNPRTWX"[(int)digit]);
        }

        Assert.Equal(expected.ToString(), CheckText.Of(new Settings([One])));
    }

    [Fact]
    public void What_changes_nothing_in_the_field_changes_nothing_here()
    {
        string check = CheckText.Of(new Settings([One]));
        Assert.Equal(check, CheckText.Of(new Settings([One], 40)));
        Assert.Equal(check, CheckText.Of(new Settings([One with { Days = new EveryNDays(3, new LocalDate(1999, 12, 30)) }])));
        Assert.Equal(check, CheckText
            .Of(new Settings([One with { StartTimes = [new LocalTime(5, 30), new LocalTime(4, 0), new LocalTime(4, 0)] }])));
        Assert.Equal(check, CheckText.Of(new Settings([One, new Program('B', [], [new RunTime(1, 600)], new OddDays())])));
    }

    [Fact]
    public void Any_slip_in_a_program_that_runs_shows() =>
        Gen.Select(RandomSettings.Any, Gen.Int[0, 3], Gen.Int[0, 100]).ForEvery((settings, kind, pick) =>
        {
            int[] running = [.. Enumerable.Range(0, settings.Programs.Count).Where(i => CheckText.CanRun(settings.Programs[i]))];
            if (running.Length == 0)
            {
                return;
            }

            int index = running[pick % running.Length];
            Settings slipped = settings with
                { Programs = settings.Programs.Select((p, i) => i == index ? Slip(p, kind, pick) : p).ToListOf() };
            Assert.NotEqual(CheckText.Of(settings), CheckText.Of(slipped));
        }, iter: 1000);

    private static Program Slip(Program program, int kind, int pick) => kind switch
    {
        0 => program with { StartTimes = program.StartTimes
            .Select((t, i) => i == pick % program.StartTimes.Count ? t.PlusSeconds(1) : t).ToListOf() },
        1 => program with { RunTimes = program.RunTimes
            .Select((r, i) => i == pick % program.RunTimes.Count ? r with { Seconds = r.Seconds + 60 } : r).ToListOf() },
        2 => program with { RunTimes = program.RunTimes
            .Select((r, i) => i == pick % program.RunTimes.Count ? r with { Station = r.Station + 12 } : r).ToListOf() },
        _ => program with { Days = program.Days is OddDays ? new EvenDays() : new OddDays() },
    };
}
