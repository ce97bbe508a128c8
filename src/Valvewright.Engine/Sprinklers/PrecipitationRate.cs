namespace Valvewright.Engine.Sprinklers;

/// <summary>Rates and flows from one another. One litre on one square metre stands one millimetre deep.</summary>
/// <remarks>In US customary units the same is in/h = 96.25 x gpm / ft2 (231 in3/gal, 144 in2/ft2, 60 min/h), printed rounded as
/// 96.3.</remarks>
public static class PrecipitationRate
{
    /// <summary>Gross rate from a zone's flow and area.</summary>
    public static double FromFlowAndArea(double flowLpm, double areaM2) => 60 * flowLpm / areaM2;

    /// <summary>The flow that gives a rate on an area.</summary>
    public static double FlowLpm(double rateMmPerHour, double areaM2) => rateMmPerHour * areaM2 / 60;

    /// <summary>Gross rate of full-circle heads, or of emitters, on a grid.</summary>
    /// <param name="flowLpm">Flow of one head or emitter.</param>
    /// <param name="alongM">Distance within the row.</param>
    /// <param name="betweenM">Distance from row to row.</param>
    public static double FromSpacing(double flowLpm, double alongM, double betweenM) => FromFlowAndArea(flowLpm, alongM * betweenM);

    /// <summary>How many heads or emitters a grid puts on an area.</summary>
    public static double CountOnGrid(double areaM2, double alongM, double betweenM) => areaM2 / (alongM * betweenM);
}
