using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;

namespace Swardloop.Storage;

/// <summary>The workshop's database: the journal of changes, the records they add up to, lists made of them, accounts, keys.</summary>
/// <param name="options">Which database.</param>
public sealed class WorkshopDatabase(DbContextOptions<WorkshopDatabase> options) : IdentityUserContext<Account, Guid>(options), IDataProtectionKeyContext
{
    /// <summary>The one row that numbers the changes.</summary>
    public DbSet<WorkshopMark> Mark => Set<WorkshopMark>();

    /// <summary>All changes, in order.</summary>
    public DbSet<JournalEntry> Journal => Set<JournalEntry>();

    /// <summary>The records.</summary>
    public DbSet<StoredRecord> Records => Set<StoredRecord>();

    /// <summary>Owners as lists show them.</summary>
    public DbSet<OwnerLine> Owners => Set<OwnerLine>();

    /// <summary>Yards as lists show them.</summary>
    public DbSet<YardLine> Yards => Set<YardLine>();

    /// <summary>Cases as lists show them.</summary>
    public DbSet<CaseLine> Cases => Set<CaseLine>();

    /// <summary>Visits as lists show them.</summary>
    public DbSet<VisitLine> Visits => Set<VisitLine>();

    /// <summary>Yards by when they lose reception.</summary>
    public DbSet<WatchLine> Watch => Set<WatchLine>();

    /// <summary>The workshop's own mail server: one row, or none.</summary>
    public DbSet<MailServer> MailServers => Set<MailServer>();

    /// <summary>Bytes of photos.</summary>
    public DbSet<StoredPhoto> Photos => Set<StoredPhoto>();

    /// <summary>Who is signed in where.</summary>
    public DbSet<Session> Sessions => Set<Session>();

    /// <summary>Practice yards of the workshop's people.</summary>
    public DbSet<PracticeRun> Practice => Set<PracticeRun>();

    /// <summary>Keys that protect cookies; here, so that every server of the workshop has them.</summary>
    public DbSet<DataProtectionKey> DataProtectionKeys => Set<DataProtectionKey>();

    /// <inheritdoc/>
    protected override void OnModelCreating(ModelBuilder builder)
    {
        base.OnModelCreating(builder);
        builder.Entity<Account>(account =>
        {
            account.Property(one => one.DisplayName).HasMaxLength(200);
            account.Property(one => one.Role).HasConversion<string>().HasMaxLength(20);
        });
        // As version 3 of Identity's tables has them. Which version these are, Identity takes from the program's settings, which the making of
        // migrations does not see; so they stand here.
        builder.Entity<IdentityUserPasskey<Guid>>(passkey =>
        {
            passkey.ToTable("AspNetUserPasskeys");
            passkey.HasKey(one => one.CredentialId);
            passkey.Property(one => one.CredentialId).HasMaxLength(1024);
            passkey.HasIndex(one => one.UserId);
            passkey.OwnsOne(one => one.Data).ToJson();
            passkey.HasOne<Account>().WithMany().HasForeignKey(one => one.UserId).IsRequired();
        });
        builder.Entity<WorkshopMark>(mark => mark.Property(one => one.Id).ValueGeneratedNever());
        builder.Entity<JournalEntry>(entry =>
        {
            entry.HasKey(one => one.Version);
            entry.Property(one => one.Version).ValueGeneratedNever();
            entry.HasIndex(one => one.Change).IsUnique();
            entry.HasIndex(one => one.Record);
            entry.Property(one => one.Kind).HasConversion<string>().HasMaxLength(20);
        });
        builder.Entity<StoredRecord>(record =>
        {
            record.Property(one => one.Id).ValueGeneratedNever();
            record.Property(one => one.Kind).HasConversion<string>().HasMaxLength(20);
            record.HasIndex(one => one.Version).IsUnique();
            record.HasIndex(one => one.Yard);
            record.HasIndex(one => one.Case);
        });
        builder.Entity<OwnerLine>(line =>
        {
            line.HasKey(one => one.Owner);
            line.Property(one => one.Owner).ValueGeneratedNever();
        });
        builder.Entity<YardLine>(line =>
        {
            line.HasKey(one => one.Yard);
            line.Property(one => one.Yard).ValueGeneratedNever();
            line.HasIndex(one => one.Owner);
            line.HasIndex(one => one.StaleSince);
        });
        builder.Entity<CaseLine>(line =>
        {
            line.HasKey(one => one.Case);
            line.Property(one => one.Case).ValueGeneratedNever();
            line.HasIndex(one => one.Yard);
            line.HasIndex(one => one.IsOpen);
            line.HasIndex(one => one.StaleSince);
        });
        builder.Entity<VisitLine>(line =>
        {
            line.HasKey(one => one.Visit);
            line.Property(one => one.Visit).ValueGeneratedNever();
            line.HasIndex(one => new { one.IsPlanned, one.On });
        });
        builder.Entity<WatchLine>(line =>
        {
            line.HasKey(one => one.Yard);
            line.Property(one => one.Yard).ValueGeneratedNever();
            line.Property(one => one.State).HasMaxLength(20);
            line.Property(one => one.ByWeakest).HasMaxLength(60);
            line.Property(one => one.ByFivePercent).HasMaxLength(60);
            line.Property(one => one.LimitsOf).HasMaxLength(64);
            line.Property(one => one.ComputedFrom).HasMaxLength(64);
            line.HasIndex(one => one.ByWeakest);
            line.HasIndex(one => one.ByFivePercent);
            line.HasIndex(one => one.StaleSince);
        });
        builder.Entity<MailServer>(server =>
        {
            server.Property(one => one.Id).ValueGeneratedNever();
            server.Property(one => one.Host).HasMaxLength(255);
            server.Property(one => one.Security).HasMaxLength(20);
            server.Property(one => one.User).HasMaxLength(200);
            server.Property(one => one.From).HasMaxLength(200);
        });
        builder.Entity<Session>(session =>
        {
            session.Property(one => one.Id).ValueGeneratedNever();
            session.Property(one => one.SecretHash).HasMaxLength(64);
            session.Property(one => one.Device).HasMaxLength(200);
            session.HasIndex(one => one.Account);
            session.HasOne<Account>().WithMany().HasForeignKey(one => one.Account).IsRequired();
        });
        builder.Entity<PracticeRun>(run =>
        {
            run.Property(one => one.Id).ValueGeneratedNever();
            run.Property(one => one.Level).HasMaxLength(20);
            run.HasIndex(one => one.Account);
            run.HasOne<Account>().WithMany().HasForeignKey(one => one.Account).IsRequired();
        });
        builder.Entity<StoredPhoto>(photo =>
        {
            photo.HasKey(one => one.Photo);
            photo.Property(one => one.Photo).ValueGeneratedNever();
            photo.Property(one => one.MediaType).HasMaxLength(40);
        });
    }
}
