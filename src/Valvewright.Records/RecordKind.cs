namespace Valvewright.Records;

/// <summary>What a record is of.</summary>
public enum RecordKind
{
    /// <summary>The survey of a site.</summary>
    Site,

    /// <summary>The weather file of a site.</summary>
    Weather,

    /// <summary>A plan.</summary>
    Plan,

    /// <summary>Settings read off a display.</summary>
    Reading,

    /// <summary>A visit to a controller.</summary>
    Visit,

    /// <summary>A photo of a visit.</summary>
    Photo,

    /// <summary>A trace of a fault.</summary>
    Trace,
}

/// <summary>The kinds and the values that they hold.</summary>
public static class RecordKinds
{
    /// <summary>The kind of record that holds values of a type.</summary>
    public static RecordKind Of<T>() => Of(typeof(T));

    /// <summary>The type of the values of a kind.</summary>
    public static Type TypeOf(RecordKind kind) => kind switch
    {
        RecordKind.Site => typeof(SiteValue),
        RecordKind.Weather => typeof(WeatherValue),
        RecordKind.Plan => typeof(PlanValue),
        RecordKind.Reading => typeof(ReadingValue),
        RecordKind.Visit => typeof(VisitValue),
        RecordKind.Photo => typeof(PhotoValue),
        RecordKind.Trace => typeof(TraceValue),
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    private static RecordKind Of(Type type) =>
        Enum.GetValues<RecordKind>().Where(k => TypeOf(k) == type).Select(k => (RecordKind?)k).FirstOrDefault()
        ?? throw new ArgumentException($"No record holds a {type.Name}.", nameof(type));
}
