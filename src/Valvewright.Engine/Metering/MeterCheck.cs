using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Metering;

/// <summary>A water meter read at a visit.</summary>
/// <param name="At">When.</param>
/// <param name="M3">What it shows.</param>
public sealed record MeterReading(Instant At, double M3);

/// <summary>How well meter and timeline are known.</summary>
/// <param name="ResolutionM3">The smallest step that is read off the meter.</param>
/// <param name="FlowOff">How far the flows of the survey may be off, all in the same direction, before the meter has taught better.</param>
/// <param name="ScatterOff">How much the use of an interval scatters for good reasons: pressure, meter, the mix of zones.</param>
/// <param name="LargestFlowLpm">The largest zone's flow: a valve that sticks lets it through.</param>
public sealed record MeterKnowledge(
    double ResolutionM3 = 0.01, double FlowOff = 0.15, double ScatterOff = 0.02, double LargestFlowLpm = 20);

/// <summary>What an interval between two readings says.</summary>
public enum MeterVerdict
{
    /// <summary>As the timeline would have it.</summary>
    AsExpected,

    /// <summary>More than expected, at a steady rate since about a date: a leak.</summary>
    Leak,

    /// <summary>More than expected, in one interval or unsteadily: a valve that stuck open, or water drawn by hand.</summary>
    TooMuch,

    /// <summary>Less than expected: a station that does not open, a shut valve, lost pressure.</summary>
    TooLittle,

    /// <summary>Two neighboring intervals are off by the same amount in opposite directions: the reading between them was wrong.</summary>
    Misread,
}

/// <summary>One interval between two readings.</summary>
/// <param name="From">First reading.</param>
/// <param name="To">Second reading.</param>
/// <param name="UsedM3">What went through the meter.</param>
/// <param name="ExpectedM3">What the timeline should have used, on the scale that the meter has taught so far.</param>
/// <param name="RoomM3">How far it may be off for good reasons (one standard deviation).</param>
/// <param name="Verdict">What it says.</param>
/// <param name="Since">Earliest and latest date since when; null where nothing is wrong.</param>
/// <param name="LitersPerHour">The leak's rate; 0 where it is none.</param>
public sealed record MeterInterval(
    Instant From, Instant To, double UsedM3, double ExpectedM3, double RoomM3, MeterVerdict Verdict, Interval? Since, double LitersPerHour)
{
    /// <summary>Use beyond the expected, or below zero short of it.</summary>
    public double ExcessM3 => UsedM3 - ExpectedM3;

    /// <summary>Whether something is wrong.</summary>
    public bool IsAlarm => Verdict != MeterVerdict.AsExpected;
}

/// <summary>Holds meter readings against what the timeline should have used.</summary>
/// <remarks>
/// Runs do not depend on the weather, so the timeline says exactly how long each valve was open; only the flow is not known exactly. The
/// first quiet intervals teach the scale. After that an interval may scatter by a few percent. Four standard deviations
/// in one interval, or two and a half in two running the same way, are an alarm. With nothing running, any use is.
/// </remarks>
public static class MeterCheck
{
    private const double Certain = 4;
    private const double Twice = 2.5;

    /// <summary>The middle absolute value of a normal draw, in standard deviations.</summary>
    private const double MiddleOfNormal = 0.6745;

    private const int FewestForScatter = 4;
    private const double ScatterWeight = 4;
    private const double LeastScatter = 0.4;

    /// <summary>Steps of the meter from which on its rounding is small against the scatter.</summary>
    private const double LargeUse = 200;

    /// <summary>Judges every interval, with what was known up to its end and, for the kind of fault, the next.</summary>
    /// <param name="readings">By rising time, at least two.</param>
    /// <param name="expectedM3">What the timeline should use between two instants, with the survey's flows.</param>
    /// <param name="knowledge">How well both are known.</param>
    /// <exception cref="ArgumentException">Readings are not in order.</exception>
    public static ListOf<MeterInterval> Judge(
        ListOf<MeterReading> readings, Func<Instant, Instant, double> expectedM3, MeterKnowledge knowledge)
    {
        ArgumentNullException.ThrowIfNull(readings);
        ArgumentNullException.ThrowIfNull(expectedM3);
        ArgumentNullException.ThrowIfNull(knowledge);
        if (readings.Zip(readings.Skip(1)).Any(p => p.Second.At <= p.First.At)) throw new ArgumentException(
            "Meter readings come in the order of their times, each time once.", nameof(readings));
        List<MeterInterval> judged = [];
        List<(double Used, double Expected)> quiet = [];
        for (int i = 0; i + 1 < readings.Count; i++)
        {
            (MeterReading from, MeterReading to) = (readings[i], readings[i + 1]);
            double planned = expectedM3(from.At, to.At);
            double scatter = Scatter(quiet, knowledge);
            (double scale, double off) = Scale(quiet, knowledge, scatter);
            double expected = scale * planned;
            double room = Math.Sqrt(Squared(off * expected) + Squared(scatter * expected) + (Squared(knowledge.ResolutionM3) / 6));
            double used = to.M3 - from.M3;
            double z = (used - expected) / room;
            MeterInterval? before = judged.Count > 0 ? judged[^1] : null;
            double zBefore = before is null ? 0 : before.ExcessM3 / before.RoomM3;
            bool alarm = used < -knowledge.ResolutionM3 || Math.Abs(z) > Certain
                || (Math.Abs(z) > Twice && Math.Abs(zBefore) > Twice && Math.Sign(z) == Math.Sign(zBefore))
                || (before is { IsAlarm: false } && CancelOut(before, used - expected, room));
            alarm &= Math.Abs(used - expected) > (planned > 0 ? 2 : 1.5) * knowledge.ResolutionM3;
            MeterInterval interval = new(from.At, to.At, used, expected, room, MeterVerdict.AsExpected, null, 0);
            if (alarm) interval = Named(interval, judged);
            judged.Add(interval);
            bool isQuiet = !alarm && Math.Abs(z) <= Certain && planned > 0;
            if (isQuiet) quiet.Add((used, planned));
        }

        return judged.ToListOf();
    }

    /// <summary>Meter over survey from quiet intervals, and how far that may be off.</summary>
    private static (double Scale, double Off) Scale(
        List<(double Used, double Expected)> quiet, MeterKnowledge knowledge, double scatter)
    {
        if (quiet.Count == 0) return (1, knowledge.FlowOff);
        double[] ratios = [.. quiet.Select(q => q.Used / q.Expected).Order()];
        double middle = ratios.Length % 2 == 1 ? ratios[ratios.Length / 2]
            : (ratios[ratios.Length / 2] + ratios[(ratios.Length / 2) - 1]) / 2;
        return (middle, 1.25 * scatter / Math.Sqrt(ratios.Length));
    }

    /// <summary>
    /// How much quiet intervals of this site really scatter, from the middle step between neighbors; what was assumed beforehand counts as
    /// much as <see cref="ScatterWeight"/> steps, and some room always remains.
    /// </summary>
    private static double Scatter(List<(double Used, double Expected)> quiet, MeterKnowledge knowledge)
    {
        (double Used, double Expected)[] large = [.. quiet.Where(q => q.Expected > LargeUse * knowledge.ResolutionM3)];
        if (large.Length < FewestForScatter) return knowledge.ScatterOff;
        double[] steps = [.. large.Zip(large.Skip(1), (a, b) => Math.Abs(Math.Log(b.Used / b.Expected / (a.Used / a.Expected)))).Order()];
        double middle = steps[steps.Length / 2] / (MiddleOfNormal * Math.Sqrt(2));
        double known = ((ScatterWeight * knowledge.ScatterOff) + (steps.Length * middle)) / (ScatterWeight + steps.Length);
        return Math.Clamp(known, LeastScatter * knowledge.ScatterOff, knowledge.ScatterOff);
    }

    /// <summary>Whether two neighbors are off by the same amount in opposite directions, and by more than both scatter: the reading between
    /// them is wrong.</summary>
    private static bool CancelOut(MeterInterval before, double excessM3, double roomM3)
    {
        double apart = excessM3 - before.ExcessM3, both = Math.Sqrt(Squared(roomM3) + Squared(before.RoomM3));
        return excessM3 * before.ExcessM3 < 0 && Math.Abs(apart) > Certain * both && Math.Abs(excessM3 + before.ExcessM3) < Twice * both
            && Math.Min(Math.Abs(excessM3), Math.Abs(before.ExcessM3)) > Math.Abs(apart) / 3;
    }

    /// <summary>What kind of alarm it is; the interval before is renamed where the two together say more.</summary>
    private static MeterInterval Named(MeterInterval interval, List<MeterInterval> judged)
    {
        MeterInterval? before = judged.Count > 0 ? judged[^1] : null;
        double together = before is null ? 0 : interval.ExcessM3 + before.ExcessM3;
        double room = before is null ? 0 : Math.Sqrt(Squared(interval.RoomM3) + Squared(before.RoomM3));
        if (before is not null && interval.ExcessM3 * before.ExcessM3 < 0 && Math.Abs(together) < Certain * room
            && (Math.Abs(before.ExcessM3) > Twice * before.RoomM3 || CancelOut(before, interval.ExcessM3, interval.RoomM3)))
        {
            judged[^1] = before with { Verdict = MeterVerdict.Misread, Since = new Interval(before.To, before.To), LitersPerHour = 0 };
            return interval with { Verdict = MeterVerdict.Misread, Since = new Interval(interval.From, interval.From) };
        }

        if (interval.ExcessM3 < 0) return interval with
            { Verdict = MeterVerdict.TooLittle, Since = new Interval(interval.From, interval.To) };
        double rate = 1000 * interval.ExcessM3 / (interval.To - interval.From).TotalHours;
        bool follows = before is { Verdict: MeterVerdict.TooMuch or MeterVerdict.Leak or MeterVerdict.AsExpected } && before.ExcessM3 > 0;
        if (follows && before!.Verdict == MeterVerdict.Leak && Math.Abs(rate - before.LitersPerHour) < (0.5 * rate) + (
            4000 * room / (interval.To - interval.From).TotalHours))
        {
            return interval with { Verdict = MeterVerdict.Leak, Since = before.Since, LitersPerHour = rate };
        }

        double share = follows ? before!.ExcessM3 * 1000 / rate / (before.To - before.From).TotalHours : 0;
        if (follows && before!.ExcessM3 > Twice * before.RoomM3 && share <= 1.25)
        {
            // The interval before had part of it: it began that long before its end.
            Instant since = before.To - Duration.FromHours(Math.Min(share, 1) * (before.To - before.From).TotalHours);
            Duration slack = Duration.FromHours(Math.Min((before.To - before.From).TotalHours, 2000 * room / rate));
            Interval between = new(Instant.Max(before.From, since - slack), Instant.Min(before.To, since + slack));
            judged[^1] = before with { Verdict = MeterVerdict.Leak, Since = between, LitersPerHour = rate };
            return interval with { Verdict = MeterVerdict.Leak, Since = between, LitersPerHour = rate };
        }

        return interval with { Verdict = MeterVerdict.TooMuch, Since = new Interval(interval.From, interval.To), LitersPerHour = rate };
    }

    private static double Squared(double x) => x * x;
}
