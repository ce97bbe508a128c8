namespace Valvewright.Engine.Controllers.Mechanism;

/// <summary>The pump or master valve output: on before a station opens, off after the last has closed.</summary>
internal struct Pump(PumpOutput? output)
{
    private readonly bool present = output is not null;
    private readonly int lead = output?.LeadSeconds ?? 0;
    private readonly int lag = output?.LagSeconds ?? 0;
    private long on = Lane.Never;

    /// <summary>When it goes off, as far as is known; long ago where it never was on.</summary>
    public long Off { get; private set; } = Lane.Never;

    /// <summary>The spell that has ended or is the last one; null for none.</summary>
    public readonly PumpRun? Spell => on == Lane.Never ? null : new PumpRun(on, Off);

    /// <summary>When a station that wants to open may open; gives the spell that ended before, if one did.</summary>
    public long Ready(long wants, out PumpRun? ended)
    {
        ended = null;
        if (!present)
        {
            return wants;
        }

        if (wants > Off)
        {
            ended = Spell;
            on = wants;
            Off = wants;
        }

        return Math.Max(wants, on + lead);
    }

    /// <summary>A station has been opened that closes then.</summary>
    public void Carry(long closes) => Hold(closes + lag);

    /// <summary>It was switched on for a station that never opens.</summary>
    public void Abandon(long at) => Hold(at);

    /// <summary>Power is gone.</summary>
    public void Cut(long at) => Off = Math.Min(Off, at);

    private void Hold(long until)
    {
        if (present)
        {
            Off = Math.Max(Off, until);
        }
    }
}
