using System.Text.Json;

namespace Valvewright.Server.Tests;

/// <summary>Waits for jobs.</summary>
internal static class Jobs
{
    /// <summary>A job once it has ended.</summary>
    public static async Task<JsonElement> Ended(Running running, string id)
    {
        for (int i = 0; i < 1200; i++)
        {
            JsonElement job = (await running.Get($"/api/jobs/{id}")).Json;
            if (job.GetProperty("ended").ValueKind != JsonValueKind.Null)
            {
                return job;
            }

            await Task.Delay(100);
        }

        throw new TimeoutException("The job does not end.");
    }
}
