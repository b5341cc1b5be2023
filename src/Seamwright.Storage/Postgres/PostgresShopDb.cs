using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using NodaTime;
using Seamwright.Storage.Databases;

namespace Seamwright.Storage.Postgres;

/// <summary>The model on PostgreSQL.</summary>
internal sealed class PostgresShopDb(DbContextOptions<PostgresShopDb> options) : ShopDb(options)
{
    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        base.ConfigureConventions(configurationBuilder);
        configurationBuilder.Properties<Instant>().HaveConversion<InstantToUtc>();
        // Without a fixed scale 361.02 comes back as 361.02 and not as 361.0200, as from SQLite.
        configurationBuilder.Properties<decimal>().HaveColumnType("numeric");
    }

    // Names sort by their letters' codes everywhere, whatever the server's own language is: pages of a list must not differ.
    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        base.OnModelCreating(modelBuilder);
        foreach (var property in modelBuilder.Model.GetEntityTypes().SelectMany(type => type.GetProperties()))
        {
            if (property.ClrType == typeof(string))
                property.SetCollation("C");
        }
    }
}

/// <summary>Lets the migration tool make the context without the program; it connects to nothing.</summary>
internal sealed class PostgresShopDbFactory : IDesignTimeDbContextFactory<PostgresShopDb>
{
    public PostgresShopDb CreateDbContext(string[] args) =>
        new(new DbContextOptionsBuilder<PostgresShopDb>().UseNpgsql("Host=localhost").Options);
}
