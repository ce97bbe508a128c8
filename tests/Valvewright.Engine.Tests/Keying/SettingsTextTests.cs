using CsCheck;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Keying;
using Valvewright.Tests;

namespace Valvewright.Engine.Tests.Keying;

/// <summary>Settings as text come back as they went, and damage is found.</summary>
public sealed class SettingsTextTests
{
    /// <summary>ISO/IEC 18004, table 5: the signs of the alphanumeric mode.</summary>
    private const string AlphanumericMode = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";

    private static readonly Settings Example = new(
        [
            new Program('A', [new LocalTime(4, 0), new LocalTime(5, 30)], [new RunTime(1, 720), new RunTime(2, 480), new RunTime(3, 30)],
                new DaysOfWeek([IsoDayOfWeek.Monday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Friday])),
            new Program('B', [new LocalTime(21, 0)], [new RunTime(4, 2700)], new EveryNDays(3, new LocalDate(2026, 7, 2))),
        ]);

    [Fact]
    public void The_form_is_the_one_described()
    {
        string text = SettingsText.Write(Example, "Jardín nº 3 / north");
        Assert.Equal(
            $"VW1/A W135 T0400 0530 S1:12 2:8 3:0.30/B I3.20260702 T2100 S4:45/%100/K{CheckText.Of(Example)}/NJARDIN N. 3 . NORTH", text);
    }

    [Fact]
    public void Any_settings_come_back_equal() =>
        RandomSettings.Any.ForEvery(s => Assert.Equal(s, SettingsText.Read(SettingsText.Write(s, "x"))), iter: 2000);

    [Fact]
    public void Only_the_signs_that_codes_pack_tightest_are_used() =>
        RandomSettings.Any.ForEvery(
            s => Assert.All(SettingsText.Write(s, "Ñandú/東\u0000🌳"), c => Assert.Contains(c, AlphanumericMode)), iter: 500);

    [Fact]
    public void A_changed_sign_never_gives_other_programs_unnoticed()
    {
        string text = SettingsText.Write(Example);
        int programsEnd = text.IndexOf("/%", StringComparison.Ordinal);
        for (int at = 0; at < programsEnd; at++)
        {
            foreach (char other in AlphanumericMode)
            {
                string changed = string.Concat(text.AsSpan(0, at), other.ToString(), text.AsSpan(at + 1));
                try
                {
                    // Only the date an interval is counted from may differ, and only where it waters on the same days.
                    Settings read = SettingsText.Read(changed);
                    EveryNDays every = Assert.IsType<EveryNDays>(read.Programs[1].Days);
                    Assert.Equal(0, Period.DaysBetween(new LocalDate(2026, 7, 2), every.Anchor) % 3);
                    Assert.Equal(Example,
                        read with { Programs = [read.Programs[0], read.Programs[1] with { Days = Example.Programs[1].Days }] });
                }
                catch (FormatException)
                {
                    continue;
                }
            }
        }
    }

    [Theory]
    [InlineData("", "expected 'VW1'")]
    [InlineData("VW2/%100/KAAAAA", "expected 'VW1'")]
    [InlineData("VW1/A W8 T0400 S1:2/%100/K", "expected watering days")]
    [InlineData("VW1/A I3.20260230 T0400 S1:2/%100/K", "expected watering days")]
    [InlineData("VW1/A ODD T2400 S1:2/%100/K", "expected a start time")]
    [InlineData("VW1/A ODD T0400 S1/%100/K", "expected a run time")]
    [InlineData("VW1/A ODD 0400/%100/K", "expected start times")]
    [InlineData("VW1/A ODD T0400 S1:99999999999/%100/K", "expected a whole number")]
    [InlineData("VW1/A ODD T0400 S1:2", "percent adjust")]
    [InlineData("VW1/%100/KAAAAA", "damaged")]
    public void Damage_is_named(string text, string says) =>
        Assert.Contains(says, Assert.Throws<FormatException>(() => SettingsText.Read(text)).Message, StringComparison.Ordinal);

    [Fact]
    public void No_text_ends_in_anything_but_settings_or_a_format_error() =>
        Gen.Select(RandomSettings.Any, Gen.Int[0, 400], Gen.Char).ForEvery((settings, at, sign) =>
        {
            string text = SettingsText.Write(settings);
            at %= text.Length;
            try
            {
                SettingsText.Read(string.Concat(text.AsSpan(0, at), sign.ToString(), text.AsSpan(at + 1)));
            }
            catch (FormatException)
            {
                // A stated refusal is the expected end.
            }
        }, iter: 2000);
}
