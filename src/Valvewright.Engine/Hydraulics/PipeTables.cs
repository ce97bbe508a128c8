using Valvewright.Engine.Values;

namespace Valvewright.Engine.Hydraulics;

/// <summary>What a pipe is made of.</summary>
public enum PipeMaterial
{
    /// <summary>PVC, schedule 40.</summary>
    PvcSchedule40,

    /// <summary>PVC, class 200 (SDR 21).</summary>
    PvcClass200,

    /// <summary>Polyethylene, sized by its inside.</summary>
    Polyethylene,

    /// <summary>Copper tube, type L.</summary>
    Copper,

    /// <summary>Galvanized steel, schedule 40.</summary>
    GalvanizedSteel,

    /// <summary>Cast or ductile iron; give the inside diameter.</summary>
    CastIron,
}

/// <summary>Inside diameters and roughness of common pipe, and loss coefficients of fittings.</summary>
/// <remarks>
/// Roughness C and loss coefficients: US EPA, EPANET 2.2 User Manual, tables 3.2 and 3.3 (plastic 140 to 150, steel 140 to 150,
/// galvanized 120, cast iron 130 to 140 when new). Inside diameters of PVC schedule 40 are averages; the others are nominal
/// dimensions that were not checked against the printed standard. A diameter read off the pipe comes first.
/// </remarks>
public static class PipeTables
{
    private const double MmPerInch = Quantities.UsUnits.MmPerInch;

    /// <summary>Nominal sizes in inches, as people write them.</summary>
    public static ListOf<string> NominalSizes { get; } = ["1/2", "3/4", "1", "1 1/4", "1 1/2", "2", "2 1/2", "3"];

    private static readonly Dictionary<PipeMaterial, double[]> InsideIn = new()
    {
        [PipeMaterial.PvcSchedule40] = [.608, .810, 1.033, 1.364, 1.592, 2.049, 2.445, 3.042],
        [PipeMaterial.PvcClass200] = [.720, .930, 1.189, 1.502, 1.720, 2.149, 2.601, 3.166],
        [PipeMaterial.Polyethylene] = [.622, .824, 1.049, 1.380, 1.610, 2.067, 2.469, 3.068],
        [PipeMaterial.Copper] = [.545, .785, 1.025, 1.265, 1.505, 1.985, 2.465, 2.945],
        [PipeMaterial.GalvanizedSteel] = [.622, .824, 1.049, 1.380, 1.610, 2.067, 2.469, 3.068],
    };

    /// <summary>Inside diameter of a nominal size; null where the table has none.</summary>
    public static double? InsideDiameterMm(PipeMaterial material, string nominalSize)
    {
        int index = NominalSizes.ToList().IndexOf(nominalSize);
        return index < 0 || !InsideIn.TryGetValue(material, out double[]? sizes) ? null : sizes[index] * MmPerInch;
    }

    /// <summary>Whether the diameters of a material are read from a source; the others are nominal and not checked against the
    /// standard.</summary>
    public static bool IsChecked(PipeMaterial material) => material == PipeMaterial.PvcSchedule40;

    /// <summary>Roughness C that is used where the survey gives none.</summary>
    public static double Roughness(PipeMaterial material) => material switch
    {
        PipeMaterial.GalvanizedSteel => 120,
        PipeMaterial.CastIron => 130,
        _ => 145,
    };

    /// <summary>Loss coefficient K of a fitting.</summary>
    public static double LossCoefficient(PipeFitting fitting) => fitting switch
    {
        PipeFitting.GateValve => 0.2,
        PipeFitting.AngleValve => 5,
        PipeFitting.GlobeValve => 10,
        PipeFitting.SwingCheckValve => 2.5,
        PipeFitting.ShortElbow => 0.9,
        PipeFitting.MediumElbow => 0.8,
        PipeFitting.LongElbow => 0.6,
        PipeFitting.Elbow45 => 0.4,
        PipeFitting.TeeRun => 0.6,
        PipeFitting.TeeBranch => 1.8,
        PipeFitting.Entrance => 0.5,
        _ => 1,
    };
}

/// <summary>A fitting that costs pressure.</summary>
public enum PipeFitting
{
    /// <summary>Gate valve, open.</summary>
    GateValve,

    /// <summary>Angle valve, open.</summary>
    AngleValve,

    /// <summary>Globe valve, open; the nearest published figure for a station valve whose own loss is not known.</summary>
    GlobeValve,

    /// <summary>Swing check valve.</summary>
    SwingCheckValve,

    /// <summary>Elbow of small radius.</summary>
    ShortElbow,

    /// <summary>Elbow of medium radius.</summary>
    MediumElbow,

    /// <summary>Elbow of large radius.</summary>
    LongElbow,

    /// <summary>45 degree elbow.</summary>
    Elbow45,

    /// <summary>Tee, straight through.</summary>
    TeeRun,

    /// <summary>Tee, through the branch.</summary>
    TeeBranch,

    /// <summary>From a tank into a pipe.</summary>
    Entrance,

    /// <summary>From a pipe into a tank.</summary>
    Exit,
}
