using NodaTime;
using Valvewright.Store.Files;
using Valvewright.Records;

namespace Valvewright.Store.Tests;

public sealed class BackupsTests : IDisposable
{
    private static readonly Instant Now = Instant.FromUtc(2026, 5, 1, 12, 0);
    private readonly FileShelf shelf = new();

    public void Dispose() => shelf.Dispose();

    [Fact]
    public async Task A_copy_is_made_while_the_store_is_written_to_and_put_back_later()
    {
        Guid site;
        using (SiteStore store = shelf.Open())
        {
            site = Shelf.Site(store);
            using CancellationTokenSource stop = new();
            Task writing = Task.Run(() =>
            {
                while (!stop.IsCancellationRequested)
                {
                    store.Put(site, Ids.New(), Shelf.Visit(), null, Shelf.Ana);
                }
            });
            Intact copied = Backups.Make(shelf.Place, shelf["copy.db"]);
            await stop.CancelAsync();
            await writing;
            Assert.True(copied.IsWhole);
            Assert.Equal(1, copied.Sites);
            Assert.Contains("another program",
                Assert.Throws<StoreException>(() => Backups.PutBack(shelf["copy.db"], shelf.Place, Now)).Message, StringComparison.Ordinal);
            store.Remove<SiteValue>(site, site, 1, Shelf.Ben);
        }

        (Intact whole, string? former) = Backups.PutBack(shelf["copy.db"], shelf.Place, Now);
        Assert.Equal(1, whole.Sites);
        Assert.Equal(0, Intact.Check(former!).Sites);
        using SiteStore again = shelf.Open();
        Assert.NotNull(again.Site(site));
        Assert.DoesNotContain(Directory.GetFiles(shelf.Folder), f => f.Contains(".part", StringComparison.Ordinal));
    }

    [Fact]
    public void Changes_that_a_killed_program_left_in_its_log_do_not_get_into_what_is_put_back()
    {
        Guid late = Ids.New();
        using (SiteStore store = shelf.Open())
        {
            Shelf.Site(store);
            Backups.Make(shelf.Place, shelf["copy.db"]);
            store.PutSite(late, new SiteValue("Late", "", ""), null, Shelf.Ana);
            File.Copy(shelf.Place, shelf["killed.db"]);
            File.Copy(shelf.Place + "-wal", shelf["killed.db-wal"]);
        }

        (Intact whole, string? former) = Backups.PutBack(shelf["copy.db"], shelf["killed.db"], Now);
        Assert.Equal(1, whole.Sites);
        Assert.Equal(1, Intact.Check(shelf["killed.db"]).Sites);
        Assert.Equal(2, Intact.Check(former!).Sites);
    }

    [Theory]
    [InlineData("changed")]
    [InlineData("cut")]
    [InlineData("text")]
    [InlineData("none")]
    public void What_is_not_whole_is_not_put_back(string how)
    {
        using (SiteStore store = shelf.Open())
        {
            Shelf.Site(store);
        }

        string copy = shelf["copy.db"];
        Backups.Make(shelf.Place, copy);
        byte[] before = File.ReadAllBytes(shelf.Place), bytes = File.ReadAllBytes(copy);
        switch (how)
        {
            case "changed":
                for (int i = 4096; i < bytes.Length; i += 512)
                {
                    bytes[i] ^= 0x55;
                }

                File.WriteAllBytes(copy, bytes);
                break;
            case "cut": File.WriteAllBytes(copy, bytes[..(bytes.Length / 2)]); break;
            case "text": File.WriteAllText(copy, "hello"); break;
            default: File.Delete(copy); break;
        }

        Assert.Throws<StoreException>(() => Backups.PutBack(copy, shelf.Place, Now));
        Assert.Equal(before, File.ReadAllBytes(shelf.Place));
        Assert.DoesNotContain(Directory.GetFiles(shelf.Folder), f => f.Contains(".part", StringComparison.Ordinal));
    }

    [Fact]
    public void A_copy_does_not_overwrite()
    {
        using (SiteStore store = shelf.Open())
        {
            Shelf.Site(store);
        }

        File.WriteAllText(shelf["there.db"], "mine");
        Assert.Throws<StoreException>(() => Backups.Make(shelf.Place, shelf["there.db"]));
        Assert.Equal("mine", File.ReadAllText(shelf["there.db"]));
        Assert.Throws<StoreException>(() => Backups.Make(shelf["nowhere.db"], shelf["new.db"]));
    }
}
