using Google.OrTools.Sat;
using Valvewright.Planning.Choices;

namespace Valvewright.Planning.Hours;

/// <summary>The supply's flow, date by date; dates that the answer turns out to break are added to the model.</summary>
internal sealed partial class HoursModel
{
    private const int DatesAddedAtOnce = 4;

    private bool AddBrokenDates(int[][] starts)
    {
        bool any = false;
        foreach (int shift in clockShifts)
        {
            foreach (DateSet date in waiting[shift].Where(d => Breaks(d, starts, shift)).Take(DatesAddedAtOnce).ToList())
            {
                waiting[shift].Remove(date);
                TheSupplyCarriesEveryMomentOf(date, shift);
                any = true;
            }
        }

        return any;
    }

    private bool Breaks(DateSet date, int[][] starts, int shift)
    {
        List<(int At, int Flow)> changes = [];
        foreach ((int program, int start, int dayOffset) in RunsOf(date))
        {
            int behind = programs[program].Of.Profile.ClockKnowsDaylightSaving ? 0 : shift;
            foreach (FlowPiece piece in programs[program].Shape.Flow)
            {
                int at = starts[program][start] + dayOffset + behind + piece.Offset;
                changes.Add((at, piece.FlowTenths));
                changes.Add((at + piece.Seconds, -piece.FlowTenths));
            }
        }

        int flow = 0;
        foreach ((_, int change) in changes.OrderBy(c => c.At).ThenBy(c => c.Flow))
        {
            flow += change;
            if (flow > supplyTenths)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Dates on which the supply could run dry at all, fullest first.</summary>
    /// <param name="shift">How far clocks that ignore daylight saving are behind those that know it.</param>
    private void TheSupplyCarriesEveryMoment(int shift)
    {
        waiting[shift] = [.. dates
            .Where(d => RunsOf(d).GroupBy(r => programs[r.Program].Draft.Controller)
                .Sum(g => g.Max(r => programs[r.Program].Shape.Flow.Max(f => f.FlowTenths))) > supplyTenths)
            .OrderByDescending(d =>
                RunsOf(d).Where(r => r.DayOffset == 0).Sum(r => programs[r.Program].Shape.Flow.Sum(f => (long)f.Seconds * f.FlowTenths)))];
        foreach (DateSet date in waiting[shift].Take(DatesAddedAtOnce).ToList())
        {
            waiting[shift].Remove(date);
            TheSupplyCarriesEveryMomentOf(date, shift);
        }
    }

    private void TheSupplyCarriesEveryMomentOf(DateSet date, int shift)
    {
        CumulativeConstraint flow = model.AddCumulative(supplyTenths);
        foreach ((int program, int start, int dayOffset) in RunsOf(date))
        {
            int behind = programs[program].Of.Profile.ClockKnowsDaylightSaving ? 0 : shift;
            foreach (FlowPiece piece in programs[program].Shape.Flow)
            {
                flow.AddDemand(Interval(program, start, dayOffset + behind + piece.Offset, piece.Seconds), piece.FlowTenths);
            }
        }
    }
}
