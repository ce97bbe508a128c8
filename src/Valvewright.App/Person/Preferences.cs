using Valvewright.Files.Texts;

namespace Valvewright.App.Person;

/// <summary>Which form the page has.</summary>
public enum Look
{
    /// <summary>As the device is set.</summary>
    AsDevice,

    /// <summary>Dark letters on light.</summary>
    Light,

    /// <summary>Light letters on dark.</summary>
    Dark,
}

/// <summary>What the person chose on this device: language, look, and the name that stands in the history beside what they do.</summary>
public sealed class Preferences(Device device)
{
    /// <summary>The language of the page.</summary>
    public Language Language { get; private set; } = Language.English;

    /// <summary>The look of the page.</summary>
    public Look Look { get; private set; }

    /// <summary>The person's name, as they gave it; empty until they do.</summary>
    public string By { get; private set; } = "";

    /// <summary>How the device shows times elsewhere: for what is shown of a site that is not known here.</summary>
    public ClockStyle Clock { get; private set; } = ClockStyle.Hours24;

    /// <summary>The units of the device's country, for the same.</summary>
    public UnitSystem Units { get; private set; } = UnitSystem.Metric;

    /// <summary>Raised when any of them changes.</summary>
    public event Action? Changed;

    /// <summary>Reads what the device remembers.</summary>
    public async Task LoadAsync()
    {
        Language = await device.Ask<string>("language") == "es" ? Language.Spanish : Language.English;
        Look = await device.Ask<string?>("remembered", "look") switch { "light" => Look.Light, "dark" => Look.Dark, _ => Look.AsDevice };
        By = await device.Ask<string?>("remembered", "by") ?? "";
        bool[]? habits = await device.Ask<bool[]?>("habits");
        (Clock, Units) = (habits is [true, ..] ? ClockStyle.Hours12 : ClockStyle.Hours24, habits is [_, true] ? UnitSystem.UsCustomary
            : UnitSystem.Metric);
    }

    /// <summary>Changes the language.</summary>
    public async Task Speak(Language language)
    {
        Language = language;
        string code = language == Language.Spanish ? "es" : "en";
        await device.Tell("remember", "language", code);
        await device.Tell("setLanguage", code);
        Changed?.Invoke();
    }

    /// <summary>Changes the look.</summary>
    public async Task Show(Look look)
    {
        Look = look;
        string? code = look switch { Look.Light => "light", Look.Dark => "dark", _ => null };
        await device.Tell("remember", "look", code);
        await device.Tell("setLook", code);
        Changed?.Invoke();
    }

    /// <summary>Changes the name.</summary>
    public async Task Call(string by)
    {
        By = by.Trim();
        await device.Tell("remember", "by", By);
        Changed?.Invoke();
    }
}
