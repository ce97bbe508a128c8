using Valvewright.Engine.Controllers;
using Valvewright.Engine.Keying;

namespace Valvewright.Engine.Season.Search.Programs;

/// <summary>One program of a controller, and what visits may make of it.</summary>
internal sealed class ProgramCase
{
    public ProgramCase(Program[] variants)
    {
        Variants = variants;
        Keys = new int[variants.Length, variants.Length];
        for (int from = 0; from < variants.Length; from++)
        {
            for (int to = 0; to < variants.Length; to++)
            {
                Keys[from, to] = ProgramChange.Between([variants[from]], [variants[to]]).Sum(c => c.Settings);
            }
        }
    }

    /// <summary>The program as the plan has it first.</summary>
    public Program[] Variants { get; }

    /// <summary>Settings to key in from one variant to another.</summary>
    public int[,] Keys { get; }

    /// <summary>Settings that a year's visits key in, the way back over the new year included.</summary>
    public int KeysOf(int[] variants)
    {
        int keys = 0;
        for (int visit = 0; visit < variants.Length; visit++)
        {
            keys += Keys[variants[(visit + variants.Length - 1) % variants.Length], variants[visit]];
        }

        return keys;
    }
}
