using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
using Valvewright.Engine.Values;

namespace Valvewright.Records.Carrying;

/// <summary>Records that a site carried as one file gives back.</summary>
/// <param name="Form">The form of the file; 1.</param>
/// <param name="Site">The site's id.</param>
/// <param name="SiteName">The site's name, for the eye.</param>
/// <param name="Records">The visits, in the order in which they were made.</param>
public sealed record RecordFile([property: JsonRequired] int Form, [property: JsonRequired] Guid Site, string SiteName,
    [property: JsonRequired] ListOf<VisitRecord> Records)
{
    /// <summary>The form that is read.</summary>
    public const int KnownForm = 1;

    /// <summary>Reads a file.</summary>
    /// <exception cref="FormatException">It is none.</exception>
    public static RecordFile Read(string text)
    {
        try
        {
            RecordFile? read = JsonSerializer.Deserialize<RecordFile>(text, Json.Options);
            return read is { Form: KnownForm, Records: not null } && read.Records.All(r => r is { Value: not null }) ? read
                : throw new FormatException(
                    $"The form is {read?.Form.ToString(CultureInfo.InvariantCulture) ?? "null"}, expected {KnownForm}.");
        }
        catch (JsonException reason)
        {
            throw new FormatException(reason.Message, reason);
        }
    }
}

/// <summary>A visit that was recorded in a carried file.</summary>
/// <param name="Id">Its id, made where it was recorded: it counts once, however often it comes.</param>
/// <param name="By">Who recorded it; may be empty.</param>
/// <param name="Value">What it says.</param>
public sealed record VisitRecord([property: JsonRequired] Guid Id, string By, [property: JsonRequired] VisitValue Value);
