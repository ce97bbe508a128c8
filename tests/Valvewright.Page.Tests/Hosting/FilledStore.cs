namespace Valvewright.Page.Tests.Hosting;

/// <summary>A store with planned sites, filled once for all stages, and gone with the last of them.</summary>
internal static class FilledStore
{
    private static readonly SemaphoreSlim Turn = new(1);
    private static Served? filled;
    private static FilledSites? sites;
    private static int stages;

    /// <summary>The store's file, which nobody has open, and what is in it.</summary>
    public static async Task<(string File, FilledSites Sites)> Take()
    {
        await Turn.WaitAsync();
        try
        {
            stages++;
            if (filled is null || sites is null)
            {
                filled = await Served.Start();
                sites = await FilledSites.Make(filled.Fill);
                await filled.StopAsync();
            }

            return (filled.Store, sites);
        }
        finally
        {
            Turn.Release();
        }
    }

    public static async Task GiveBack()
    {
        await Turn.WaitAsync();
        try
        {
            if (--stages == 0 && filled is not null)
            {
                await filled.DisposeAsync();
                filled = null;
            }
        }
        finally
        {
            Turn.Release();
        }
    }
}
