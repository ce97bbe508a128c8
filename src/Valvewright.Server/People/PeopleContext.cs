using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;
using NodaTime;

namespace Valvewright.Server.People;

/// <summary>People, organizations, and which site belongs to which. Says nothing of the database that it is kept in.</summary>
internal sealed class PeopleContext(DbContextOptions<PeopleContext> options) : IdentityUserContext<Person, Guid>(options)
{
    private const int LongestName = 100;
    private const int DigestSigns = 64;

    public DbSet<Organization> Organizations => Set<Organization>();

    public DbSet<Membership> Memberships => Set<Membership>();

    public DbSet<Invitation> Invitations => Set<Invitation>();

    public DbSet<AccessToken> AccessTokens => Set<AccessToken>();

    public DbSet<SiteOwner> SiteOwners => Set<SiteOwner>();

    public DbSet<PeopleVersion> Versions => Set<PeopleVersion>();

    /// <summary>With tables for passkeys, so that they need no change of the tables.</summary>
    protected override Version SchemaVersion => IdentitySchemaVersions.Version3;

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder) =>
        configurationBuilder.Properties<Instant>().HaveConversion<InstantTicks>();

    protected override void OnModelCreating(ModelBuilder builder)
    {
        base.OnModelCreating(builder);
        builder.Entity<Organization>(row =>
        {
            row.Property(o => o.Name).HasMaxLength(LongestName);
            row.HasIndex(o => o.Name).IsUnique();
        });
        builder.Entity<Membership>(row =>
        {
            row.HasKey(m => new { m.PersonId, m.OrganizationId });
            row.HasOne<Person>().WithMany().HasForeignKey(m => m.PersonId);
            row.HasOne<Organization>().WithMany().HasForeignKey(m => m.OrganizationId);
        });
        builder.Entity<Invitation>(row =>
        {
            row.Property(i => i.Name).HasMaxLength(LongestName);
            row.Property(i => i.Digest).HasMaxLength(DigestSigns);
            row.HasIndex(i => i.Digest).IsUnique();
            row.HasOne<Organization>().WithMany().HasForeignKey(i => i.OrganizationId);
        });
        builder.Entity<AccessToken>(row =>
        {
            row.Property(t => t.Name).HasMaxLength(LongestName);
            row.Property(t => t.Digest).HasMaxLength(DigestSigns);
            row.HasIndex(t => t.Digest).IsUnique();
            row.HasOne<Person>().WithMany().HasForeignKey(t => t.PersonId);
            row.HasOne<Organization>().WithMany().HasForeignKey(t => t.OrganizationId);
        });
        builder.Entity<SiteOwner>(row =>
        {
            row.HasKey(s => s.SiteId);
            row.HasOne<Organization>().WithMany().HasForeignKey(s => s.OrganizationId);
        });
        builder.Entity<PeopleVersion>(row =>
        {
            row.HasKey(v => v.Version);
            row.Property(v => v.Version).ValueGeneratedNever();
        });
    }

    private sealed class InstantTicks() : ValueConverter<Instant, long>(
        i => i.ToUnixTimeTicks(), t => Instant.FromUnixTimeTicks(t));
}
