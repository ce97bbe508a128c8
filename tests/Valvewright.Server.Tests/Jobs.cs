using System.Text.Json;

namespace Valvewright.Server.Tests;

/// <summary>Waits for jobs.</summary>
internal static class Jobs
{
    /// <summary>A job once it has ended, however long that takes.</summary>
    public static async Task<JsonElement> Ended(Running running, string id)
    {
        while (true)
        {
            JsonElement job = (await running.Get($"/api/jobs/{id}?wait=20")).Json;
            if (job.GetProperty("ended").ValueKind != JsonValueKind.Null)
            {
                return job;
            }
        }
    }
}
