using Valvewright.Engine.Sprinklers;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Finds a zone's gross rate and its flow from whatever was measured, and questions measurements that disagree.</summary>
internal static class RateReader
{
    private static readonly string[] Ways = ["rate", "flow", "spacing", "emitters", "audit"];
    private const string Expected = "one of 'rate', 'flow', 'spacing' with 'head flow', 'emitters', 'audit'";

    internal static (double RateMmPerHour, double FlowLpm, double Emitters) Read(MapReader map, double areaM2, CatchCans? cans)
    {
        double rate = map.Amount("rate");
        double flow = map.Amount("flow");
        double grid = Grid(map);
        (double count, double each) = Emitters(map, areaM2);
        if (double.IsNaN(rate)) rate = grid;
        if (double.IsNaN(flow)) flow = count * each;
        double fromFlow = PrecipitationRate.FromFlowAndArea(flow, areaM2);
        if (!double.IsNaN(flow))
        {
            if (Math.Abs((rate / fromFlow) - 1) > 0.25) Disagree(map, rate, fromFlow);
            return (fromFlow, flow, count);
        }

        if (double.IsNaN(rate) && cans is not null)
        {
            rate = cans.NetRateMmPerHour;
            map.Findings.Assume(
                $"{map.Path}/rate", map.Context.Show.Rate(rate), "what the cans caught; measure the flow to know what is lost on the way");
        }

        if (double.IsNaN(rate))
        {
            bool named = Ways.Any(map.Has);
            if (!named) map.Findings.Refuse(map.Map, Expected, "Nothing says how fast the water falls");
            return (1, 1, count);
        }

        flow = PrecipitationRate.FlowLpm(rate, areaM2);
        map.Findings.Assume($"{map.Path}/flow", map.Context.Show.Flow(flow), "rate times area");
        return (rate, flow, count);
    }

    private static void Disagree(MapReader map, double rate, double fromFlow) => map.Findings.Question(
        map.Get("rate") ?? map.Get("spacing") ?? map.Map,
        $"about {map.Context.Show.Rate(fromFlow)}, from flow and area",
        $"Rate ({map.Context.Show.Rate(rate)}) and flow over area disagree; flow and area are believed");

    private static double Grid(MapReader map)
    {
        if (map.Inner("spacing") is not { } spacing)
        {
            if (map.Has("head flow")) map.Findings
                .Refuse(map.Get("head flow")!, "'spacing' next to it", "The flow of a head says nothing without the spacing");
            return double.NaN;
        }

        double along = spacing.Amount("along");
        double between = spacing.Amount("between");
        double head = map.Amount("head flow", needed: true);
        return PrecipitationRate.FromSpacing(head, along, between);
    }

    /// <summary>The number of emitters and the flow of one: counted, so many for each plant, or as many as the grid puts on the
    /// area.</summary>
    private static (double Count, double EachLpm) Emitters(MapReader map, double areaM2)
    {
        if (map.Inner("emitters") is not { } emitters) return (double.NaN, double.NaN);
        double each = emitters.Amount("flow");
        if (emitters.Has("count")) return (emitters.TryValue("count", out int counted) ? counted : double.NaN, each);
        if (emitters.Has("per plant") || emitters.Has("plants"))
        {
            bool isCounted = emitters.TryValue("per plant", out int perPlant, needed: true) & emitters
                .TryValue("plants", out int plants, needed: true);
            return (isCounted ? perPlant * plants : double.NaN, each);
        }

        double along = emitters.Amount("along", needed: true);
        double between = emitters.Amount("between", needed: true);
        double count = PrecipitationRate.CountOnGrid(areaM2, along, between);
        if (!double.IsNaN(count)) map.Findings
            .Assume($"{emitters.Path}/count", SiteAmounts.Number(count, 0), "spacing over the whole area");
        return (count, each);
    }
}
