using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using NodaTime;
using Seamwright.Storage.Databases;

namespace Seamwright.Storage.Sqlite;

/// <summary>The model on SQLite.</summary>
internal sealed class SqliteShopDb(DbContextOptions<SqliteShopDb> options) : ShopDb(options)
{
    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        base.ConfigureConventions(configurationBuilder);
        configurationBuilder.Properties<Instant>().HaveConversion<InstantToMicroseconds>();
        configurationBuilder.Properties<decimal>().HavePrecision(18, 4);
    }
}

/// <summary>Lets the migration tool make the context without the program.</summary>
internal sealed class SqliteShopDbFactory : IDesignTimeDbContextFactory<SqliteShopDb>
{
    public SqliteShopDb CreateDbContext(string[] args) =>
        new(new DbContextOptionsBuilder<SqliteShopDb>().UseSqlite("Data Source=:memory:").Options);
}
