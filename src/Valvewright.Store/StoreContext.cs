using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;
using NodaTime;
using NodaTime.Text;
using Valvewright.Store.Rows;

namespace Valvewright.Store;

/// <summary>The tables.</summary>
internal class StoreContext(DbContextOptions options) : DbContext(options)
{
    public DbSet<RecordRow> Records => Set<RecordRow>();

    public DbSet<HistoryRow> History => Set<HistoryRow>();

    public DbSet<BlobRow> Blobs => Set<BlobRow>();

    public DbSet<JobRow> Jobs => Set<JobRow>();

    public DbSet<AdviceRow> Advice => Set<AdviceRow>();

    public DbSet<FeedRow> Feeds => Set<FeedRow>();

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder) =>
        configurationBuilder.Properties<Instant>().HaveConversion<InstantText>();

    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        modelBuilder.Entity<RecordRow>(row =>
        {
            row.ToTable("Records", t => t.HasCheckConstraint("CK_Records_Version", "Version >= 1"));
            row.HasKey(r => r.Id);
            row.Property(r => r.Id).ValueGeneratedNever();
            row.Property(r => r.Kind).HasConversion<string>();
            row.Property(r => r.Version).IsConcurrencyToken();
            row.HasOne<RecordRow>().WithMany().HasForeignKey(r => r.SiteId).OnDelete(DeleteBehavior.Restrict);
            row.HasOne<BlobRow>().WithMany().HasForeignKey(r => r.Blob).OnDelete(DeleteBehavior.Restrict);
            row.HasIndex(r => new { r.SiteId, r.Kind });
            row.HasIndex(r => r.Kind);
        });
        modelBuilder.Entity<HistoryRow>(row =>
        {
            row.ToTable("History");
            row.HasKey(h => h.Number);
            row.Property(h => h.Kind).HasConversion<string>();
            row.HasOne<RecordRow>().WithMany().HasForeignKey(h => h.RecordId).OnDelete(DeleteBehavior.Restrict);
            row.HasOne<RecordRow>().WithMany().HasForeignKey(h => h.SiteId).OnDelete(DeleteBehavior.Restrict);
            row.HasOne<HistoryRow>().WithMany().HasForeignKey(h => h.UndoOf).OnDelete(DeleteBehavior.Restrict);
            row.HasIndex(h => new { h.RecordId, h.Version }).IsUnique();
        });
        modelBuilder.Entity<BlobRow>(row =>
        {
            row.ToTable("Blobs");
            row.HasKey(b => b.Digest);
        });
        modelBuilder.Entity<JobRow>(row =>
        {
            row.ToTable("Jobs");
            row.HasKey(j => j.Id);
            row.Property(j => j.Id).ValueGeneratedNever();
            row.Property(j => j.State).HasConversion<string>();
            row.HasOne<RecordRow>().WithMany().HasForeignKey(j => j.SiteId).OnDelete(DeleteBehavior.Restrict);
            row.HasIndex(j => j.Ended);
        });
        modelBuilder.Entity<AdviceRow>(row =>
        {
            row.ToTable("Advice");
            row.HasKey(a => a.SiteId);
            row.HasOne<RecordRow>().WithMany().HasForeignKey(a => a.SiteId).OnDelete(DeleteBehavior.Restrict);
        });
        modelBuilder.Entity<FeedRow>(row =>
        {
            row.ToTable("Feeds");
            row.HasKey(f => f.Id);
            row.Property(f => f.Id).ValueGeneratedNever();
            row.HasIndex(f => f.Digest).IsUnique();
        });
    }

    private sealed class InstantText() : ValueConverter<Instant, string>(
        i => InstantPattern.ExtendedIso.Format(i), t => InstantPattern.ExtendedIso.Parse(t).Value);
}

/// <summary>The same tables in PostgreSQL: a type of its own, because migrations belong to a type of context.</summary>
internal sealed class PostgresContext(DbContextOptions<PostgresContext> options) : StoreContext(options)
{
    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        base.OnModelCreating(modelBuilder);
        // PostgreSQL takes a name without quotes for one in small letters.
        modelBuilder.Entity<RecordRow>().ToTable(t => t.HasCheckConstraint("CK_Records_Version", "\"Version\" >= 1"));
    }
}

/// <summary>Lets <c>dotnet ef migrations add</c> see the model in PostgreSQL.</summary>
internal sealed class PostgresContextAtDesign : IDesignTimeDbContextFactory<PostgresContext>
{
    public PostgresContext CreateDbContext(string[] args) => new(
        new DbContextOptionsBuilder<PostgresContext>().UseNpgsql("Host=design").Options);
}

/// <summary>Lets <c>dotnet ef migrations add</c> see the model in a file.</summary>
internal sealed class StoreContextAtDesign : IDesignTimeDbContextFactory<StoreContext>
{
    public StoreContext CreateDbContext(string[] args) =>
        new(new DbContextOptionsBuilder<StoreContext>().UseSqlite("Data Source=design.db").Options);
}
