using Valvewright.Engine.Survey;

namespace Valvewright.Files.Weather;

/// <summary>What a person knows about a weather file that the file itself does not say, or says wrongly.</summary>
public sealed record WeatherReadOptions
{
    /// <summary>Nothing known beyond the file.</summary>
    public static WeatherReadOptions None { get; } = new();

    /// <summary>Read as this layout, whatever the content looks like.</summary>
    public WeatherLayout? Layout { get; init; }

    /// <summary>Where the station stands; overrides what the file says.</summary>
    public Place? Place { get; init; }

    /// <summary>Where the weather is wanted: stands for the station's place, or for its elevation alone, where neither the person nor the
    /// file says it.</summary>
    public Place? Otherwise { get; init; }

    /// <summary>Height of the wind measurement above ground, m; overrides what the file says.</summary>
    public double? WindHeightM { get; init; }

    /// <summary>Refuse a record with wind where no one says how high it is measured, rather than assume it.</summary>
    public bool IsWindHeightNeeded { get; init; }

    /// <summary>Unit system of columns whose unit the file does not state: metric is degrees C, mm, m/s; US is degrees F, inches,
    /// mph.</summary>
    public UnitSystem? Units { get; init; }

    /// <summary>Units of single columns by the column's name in the file, overriding everything else: <c>wind</c> is <c>km/h</c>.</summary>
    public IReadOnlyDictionary<string, string> ColumnUnits { get; init; } = new Dictionary<string, string>();

    /// <summary>Which column is what, for a table that no layout knows; null where the file tells.</summary>
    public ColumnMap? Columns { get; init; }

    /// <summary>Which station to read from a file that holds several: its id or its name.</summary>
    public string? Station { get; init; }

    /// <summary>Larger files are refused, unread.</summary>
    public long LargestBytes { get; init; } = 64L * 1024 * 1024;
}
