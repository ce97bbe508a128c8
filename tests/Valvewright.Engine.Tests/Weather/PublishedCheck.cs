using System.Globalization;
using System.Text;
using System.Text.Json;
using Valvewright.Tests;

namespace Valvewright.Engine.Tests.Weather;

/// <summary>One row of reference/fao56-checks.csv: a printed value and what it was printed for.</summary>
public sealed record PublishedCheck(string Id, string Source, string Quantity, JsonElement Inputs, double Expected, double HalfADigit,
    double Tolerance, string Verification)
{
    /// <summary>All rows.</summary>
    public static IReadOnlyList<PublishedCheck> All { get; } = Read();

    /// <summary>False for values recalled from memory and for values that a formula gave rather than a page.</summary>
    public bool IsEvidence => !Verification.StartsWith("from memory", StringComparison.Ordinal)
        && !Verification.StartsWith("formula:", StringComparison.Ordinal);

    /// <summary>A number among the inputs; fractions as "220/31", angles as "13d44m N".</summary>
    public double this[string name]
    {
        get
        {
            JsonElement value = Inputs.GetProperty(name);
            return value.ValueKind == JsonValueKind.Number ? value.GetDouble() : FromText(value.GetString()!);
        }
    }

    /// <inheritdoc/>
    public override string ToString() => Id;

    private static double FromText(string text)
    {
        if (text.Split('/') is [string above, string below])
        {
            return Number(above) / Number(below);
        }

        string[] angle = text.Split('d', 'm');
        return (Number(angle[0]) + Number(angle[1]) / 60) * (text.EndsWith('S') ? -1 : 1);
    }

    private static int Decimals(string text) =>
        text.Contains('.', StringComparison.Ordinal) ? text.Length - text.IndexOf('.', StringComparison.Ordinal) - 1 : 0;

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static List<PublishedCheck> Read()
    {
        string[] lines = File.ReadAllLines(Path.Combine(Checkout.Root, "reference", "fao56-checks.csv"));
        return [.. lines.Skip(1).Select(Cells).Where(c => double.TryParse(c[4], CultureInfo.InvariantCulture, out _)).Select(c =>
            new PublishedCheck(c[0], c[1], c[2], JsonDocument.Parse(c[3]).RootElement, Number(c[4]), 0.5 * Math.Pow(10, -Decimals(c[4])),
                Number(c[6]), c[7]))];
    }

    private static List<string> Cells(string line)
    {
        List<string> cells = [];
        StringBuilder cell = new();
        bool quoted = false;
        for (int i = 0; i < line.Length; i++)
        {
            if (line[i] == '"' && quoted && i + 1 < line.Length && line[i + 1] == '"')
            {
                cell.Append(line[i++]);
            }
            else if (line[i] == '"')
            {
                quoted = !quoted;
            }
            else if (line[i] == ',' && !quoted)
            {
                cells.Add(cell.ToString());
                cell.Clear();
            }
            else
            {
                cell.Append(line[i]);
            }
        }

        cells.Add(cell.ToString());
        return cells;
    }
}
