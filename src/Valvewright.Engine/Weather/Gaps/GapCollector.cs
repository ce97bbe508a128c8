using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Weather.Gaps;

/// <summary>Gathers single filled days into runs.</summary>
internal sealed class GapCollector(LocalDate first, int days)
{
    private static readonly WeatherVariable[] Variables = Enum.GetValues<WeatherVariable>();
    private readonly FillMethod?[][] filled = [.. Variables.Select(_ => new FillMethod?[days])];

    /// <summary>Notes that a day's value was filled.</summary>
    public void Add(WeatherVariable variable, int day, FillMethod method) => filled[(int)variable][day] = method;

    /// <summary>The runs: neighbouring days, same variable, same method.</summary>
    public ListOf<Gap> Runs()
    {
        List<Gap> runs = [];
        foreach (WeatherVariable variable in Variables)
        {
            FillMethod?[] methods = filled[(int)variable];
            for (int day = 0; day < days; day++)
            {
                int start = day;
                while (day + 1 < days && methods[day + 1] == methods[start])
                {
                    day++;
                }

                if (methods[start] is { } method)
                {
                    runs.Add(new(variable, first.PlusDays(start), first.PlusDays(day), method));
                }
            }
        }

        return runs.ToListOf();
    }
}
