using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Databases;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage;

/// <summary>The model of everything a shop keeps, the same on every database.</summary>
internal abstract class ShopDb(DbContextOptions options) : DbContext(options)
{
    /// <summary>Longest name or key.</summary>
    public const int NameLength = 100;

    public DbSet<RepairRow> Repairs => Set<RepairRow>();

    public DbSet<SheetRow> Sheets => Set<SheetRow>();

    public DbSet<PackRow> Packs => Set<PackRow>();

    public DbSet<ShopDocumentRow> ShopDocuments => Set<ShopDocumentRow>();

    public DbSet<SlotRow> Slots => Set<SlotRow>();

    public DbSet<ReadingRow> Readings => Set<ReadingRow>();

    public DbSet<PlanRow> Plans => Set<PlanRow>();

    public DbSet<WorkRow> WorkLog => Set<WorkRow>();

    public DbSet<PhotoRow> Photos => Set<PhotoRow>();

    public DbSet<SettingRow> Settings => Set<SettingRow>();

    public DbSet<AuditRow> Audit => Set<AuditRow>();

    public DbSet<AccountRow> Accounts => Set<AccountRow>();

    public DbSet<SignInRow> SignIns => Set<SignInRow>();

    public DbSet<ProgramKeyRow> ProgramKeys => Set<ProgramKeyRow>();

    public DbSet<KeptAnswerRow> KeptAnswers => Set<KeptAnswerRow>();

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        configurationBuilder.Properties<LocalDate>().HaveConversion<LocalDateToDate>();
        configurationBuilder.Properties<RepairState>().HaveConversion<string>().HaveMaxLength(NameLength);
    }

    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        Documents(modelBuilder);
        Programs(modelBuilder);

        var slot = modelBuilder.Entity<SlotRow>();
        slot.HasKey(row => row.At);
        slot.HasOne<RepairRow>().WithMany().HasForeignKey(row => row.Repair).OnDelete(DeleteBehavior.Restrict);

        modelBuilder.Entity<ReadingRow>().HasKey(row => new { row.Source, row.At });

        var plan = modelBuilder.Entity<PlanRow>();
        plan.Property(row => row.Id).ValueGeneratedNever();
        plan.HasIndex(row => new { row.Repair, row.Created });

        var work = modelBuilder.Entity<WorkRow>();
        work.HasKey(row => row.Sequence);
        work.Property(row => row.Sequence).ValueGeneratedNever();
        work.HasIndex(row => row.Id).IsUnique();
        work.HasIndex(row => new { row.Repair, row.Sequence });

        var photo = modelBuilder.Entity<PhotoRow>();
        photo.Property(row => row.Id).ValueGeneratedNever();
        photo.HasIndex(row => new { row.Repair, row.Taken });
        photo.HasIndex(row => row.Hash);

        modelBuilder.Entity<SettingRow>().HasKey(row => row.Key);
        modelBuilder.Entity<SettingRow>().Property(row => row.Version).IsConcurrencyToken();

        var audit = modelBuilder.Entity<AuditRow>();
        audit.Property(row => row.Id).ValueGeneratedNever();
        audit.HasIndex(row => row.At);

        var account = modelBuilder.Entity<AccountRow>();
        account.Property(row => row.Id).ValueGeneratedNever();
        account.Property(row => row.Version).IsConcurrencyToken();
        account.HasIndex(row => row.NormalName).IsUnique();

        var signIn = modelBuilder.Entity<SignInRow>();
        signIn.HasKey(row => row.KeyHash);
        signIn.HasIndex(row => row.Account);
        signIn.HasOne<AccountRow>().WithMany().HasForeignKey(row => row.Account).OnDelete(DeleteBehavior.Cascade);
    }

    private static void Documents(ModelBuilder modelBuilder)
    {
        var repair = modelBuilder.Entity<RepairRow>();
        repair.Property(row => row.Version).IsConcurrencyToken();
        repair.HasIndex(row => new { row.State, row.Promised });

        modelBuilder.Entity<SheetRow>().Property(row => row.Version).IsConcurrencyToken();

        var pack = modelBuilder.Entity<PackRow>();
        pack.Property(row => row.Version).IsConcurrencyToken();
        pack.HasIndex(row => new { row.Gone, row.Material });
        pack.HasOne<RepairRow>().WithMany().HasForeignKey(row => row.TakenFor).OnDelete(DeleteBehavior.Restrict);

        modelBuilder.Entity<ShopDocumentRow>().Property(row => row.Version).IsConcurrencyToken();
    }

    private static void Programs(ModelBuilder modelBuilder)
    {
        var key = modelBuilder.Entity<ProgramKeyRow>();
        key.Property(row => row.Id).ValueGeneratedNever();
        key.HasIndex(row => row.Hash).IsUnique();
        key.HasOne<AccountRow>().WithMany().HasForeignKey(row => row.Account).OnDelete(DeleteBehavior.Cascade);

        var answer = modelBuilder.Entity<KeptAnswerRow>();
        answer.HasKey(row => new { row.ProgramKey, row.Name });
        answer.HasIndex(row => row.Began);
        answer.HasOne<ProgramKeyRow>().WithMany().HasForeignKey(row => row.ProgramKey).OnDelete(DeleteBehavior.Cascade);
    }
}
