namespace Valvewright.Tests.Twin;

/// <summary>Stations that are to open one after another.</summary>
internal sealed class TwinJob
{
    public required char Letter { get; init; }

    public required int Start { get; init; }

    public required long Due { get; init; }

    public required bool ByHand { get; init; }

    public List<(int Station, int Seconds)> Stations { get; } = [];
}

/// <summary>One valve at a time.</summary>
internal sealed class TwinLane
{
    public int Number { get; init; }

    public List<TwinJob> Waiting { get; } = [];

    public TwinJob? Job { get; set; }

    public int Position { get; set; }

    public bool WaitsForPump { get; set; }

    public TwinJob? OpenFor { get; set; }

    public int OpenStation { get; set; }

    public long OpenedAt { get; set; }

    public long ClosesAt { get; set; } = long.MinValue / 4;

    public long PauseUntil { get; set; } = long.MinValue / 4;

    public bool HeldOpen { get; set; }

    public bool IsAtWork => Job is not null || OpenFor is not null || Waiting.Count > 0;
}
