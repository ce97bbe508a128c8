using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Readings;

/// <summary>What has been said of a program so far.</summary>
internal sealed class ProgramNotes
{
    /// <summary>Start times; null while none were spoken of.</summary>
    public SortedSet<LocalTime>? Starts { get; set; }

    /// <summary>Seconds by station; null while none were spoken of.</summary>
    public SortedDictionary<int, int>? Runs { get; set; }

    /// <summary>Water days; null while none were spoken of.</summary>
    public ReadDays? Days { get; set; }

    /// <summary>Whether a start time was said that could not be read, so that the list is not whole.</summary>
    public bool StartsAreBroken { get; set; }

    /// <summary>The same for water days.</summary>
    public bool DaysAreBroken { get; set; }

    public ReadProgram ToProgram(char letter) => new(letter)
    {
        StartTimes = StartsAreBroken ? null : Starts?.ToListOf(),
        RunTimes = Runs?.Select(r => new RunTime(r.Key, r.Value)).ToListOf(),
        Days = DaysAreBroken ? null : Days,
    };
}
