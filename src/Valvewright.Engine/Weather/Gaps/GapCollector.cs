using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Weather.Gaps;

/// <summary>Gathers single filled days into runs.</summary>
internal sealed class GapCollector(LocalDate first)
{
    private readonly SortedDictionary<(WeatherVariable Variable, int Day), FillMethod> filled = [];

    /// <summary>Notes that a day's value was filled.</summary>
    public void Add(WeatherVariable variable, int day, FillMethod method) => filled[(variable, day)] = method;

    /// <summary>The runs: neighbouring days, same variable, same method.</summary>
    public ListOf<Gap> Runs()
    {
        List<Gap> runs = [];
        int lastDay = -2;
        foreach (((WeatherVariable variable, int day), FillMethod method) in filled)
        {
            LocalDate date = first.PlusDays(day);
            bool continues = runs.Count > 0 && runs[^1].Variable == variable && runs[^1].Method == method && day == lastDay + 1;
            if (continues)
            {
                runs[^1] = runs[^1] with { To = date };
            }
            else
            {
                runs.Add(new(variable, date, date, method));
            }

            lastDay = day;
        }

        return runs.ToListOf();
    }
}
