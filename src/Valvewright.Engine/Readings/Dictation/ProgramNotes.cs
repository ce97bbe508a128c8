using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Readings.Dictation;

/// <summary>What has been said of a program so far; null is "not spoken of".</summary>
internal sealed class ProgramNotes
{
    /// <summary>Start times.</summary>
    public SortedSet<LocalTime>? Starts { get; set; }

    /// <summary>Seconds by station.</summary>
    public SortedDictionary<int, int>? Runs { get; set; }

    /// <summary>Watering days.</summary>
    public ReadDays? Days { get; set; }

    /// <summary>Whether days were said that could not be told: then none are kept, since a list with a hole looks like a day too
    /// few.</summary>
    public bool DaysAreUnsettled { get; set; }

    /// <summary>As a program of a reading.</summary>
    public ReadProgram ToProgram(char letter) => new(letter)
    {
        StartTimes = Starts?.ToListOf(),
        RunTimes = Runs?.Select(r => new Controllers.RunTime(r.Key, r.Value)).ToListOf(),
        Days = DaysAreUnsettled ? null : Days,
    };
}
