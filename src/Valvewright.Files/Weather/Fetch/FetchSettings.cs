namespace Valvewright.Files.Weather.Fetch;

/// <summary>Where and how weather is fetched, and where it is kept.</summary>
public sealed record FetchSettings
{
    /// <summary>Variable that names another address of NASA POWER's daily point service.</summary>
    public const string NasaPowerVariable = "VALVEWRIGHT_NASA_POWER";

    /// <summary>Variable that names another address of Open-Meteo's archive.</summary>
    public const string OpenMeteoVariable = "VALVEWRIGHT_OPEN_METEO";

    /// <summary>Address of NASA POWER's daily point service.</summary>
    public Uri NasaPower { get; init; } = new("https://power.larc.nasa.gov/api/temporal/daily/point");

    /// <summary>Address of Open-Meteo's archive.</summary>
    public Uri OpenMeteo { get; init; } = new("https://archive-api.open-meteo.com/v1/archive");

    /// <summary>Folder that answers are kept in.</summary>
    public string CacheFolder { get; init; } = UserCacheFolder();

    /// <summary>Time for one attempt, the whole answer included.</summary>
    public TimeSpan AttemptTimeout { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>Attempts after the first.</summary>
    public int Retries { get; init; } = 4;

    /// <summary>Wait before the second attempt; it doubles from there, with some chance in it.</summary>
    public TimeSpan FirstDelay { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>A service that asks for a longer wait than this (Retry-After) is not waited for.</summary>
    public TimeSpan LongestWait { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>What waits between attempts are counted with.</summary>
    internal TimeProvider Time { get; init; } = TimeProvider.System;

    /// <summary>Larger answers are given up.</summary>
    public int LargestBytes { get; init; } = 24 * 1024 * 1024;

    /// <summary>An answer fetched this long after its last day is final: services revise the last weeks.</summary>
    public TimeSpan SettledAfter { get; init; } = TimeSpan.FromDays(90);

    /// <summary>An answer that is not final is asked for again when it is older than this.</summary>
    public TimeSpan FreshFor { get; init; } = TimeSpan.FromDays(1);

    /// <summary>The settings with addresses from the environment, where they are given.</summary>
    public static FetchSettings FromEnvironment()
    {
        FetchSettings settings = new();
        return settings with
        {
            NasaPower = AddressIn(NasaPowerVariable) ?? settings.NasaPower,
            OpenMeteo = AddressIn(OpenMeteoVariable) ?? settings.OpenMeteo,
        };
    }

    private static Uri? AddressIn(string variable) =>
        Uri.TryCreate(Environment.GetEnvironmentVariable(variable), UriKind.Absolute, out Uri? address)
            && (address.Scheme is "http" or "https") ? address : null;

    /// <summary>The user's cache folder: XDG_CACHE_HOME, else .cache at home; on Windows the local application data.</summary>
    private static string UserCacheFolder()
    {
        string? given = Environment.GetEnvironmentVariable("XDG_CACHE_HOME");
        string user = !string.IsNullOrEmpty(given) && Path.IsPathFullyQualified(given) ? given
            : OperatingSystem.IsWindows() ? Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData)
            : Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".cache");
        return Path.Combine(user, "valvewright", "weather");
    }
}
