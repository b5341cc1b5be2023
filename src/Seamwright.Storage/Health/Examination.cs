using System.Collections.Immutable;
using System.Data.Common;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Copies;
using Seamwright.Storage.Databases;
using Seamwright.Storage.Postgres;
using Seamwright.Storage.Queries;
using Seamwright.Storage.Sqlite;

namespace Seamwright.Storage.Health;

/// <summary>One thing that was looked at.</summary>
/// <param name="IsGood">Whether it is as it should be.</param>
/// <param name="Key">Key of the sentence, which also says what to do.</param>
/// <param name="Args">Values for the sentence's places.</param>
public sealed record HealthLine(bool IsGood, string Key, ImmutableArray<string> Args);

/// <summary>Looks at a store and its machine without changing anything.</summary>
public static class Examination
{
    /// <summary>Least free space. [bytes; common practice, no source]</summary>
    public const long LeastFree = 500_000_000;

    // No clock of a machine that runs this program can be right before this.
    private static readonly Instant ThisProgram = Instant.FromUtc(2026, 11, 1, 0, 0);

    /// <summary>Looks at everything that can be looked at.</summary>
    /// <returns>What was found, in the order in which it should be read.</returns>
    /// <param name="folder">Data folder.</param>
    /// <param name="postgres">Connection string of a PostgreSQL database; null = SQLite in the folder.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="stop">Ends it.</param>
    public static async Task<ImmutableArray<HealthLine>> Examine(DataFolder folder, string? postgres, IClock clock, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(clock);
        var lines = ImmutableArray.CreateBuilder<HealthLine>();
        if (!folder.Exists || postgres is null && !File.Exists(folder.Database))
            return [Bad("doctor.no-data", folder.Path)];

        lines.Add(Disk(new DriveInfo(Path.GetFullPath(folder.Path)).AvailableFreeSpace));
        var now = clock.GetCurrentInstant();
        if (now < ThisProgram)
            lines.Add(Bad("doctor.clock-early", Shown(now)));
        try
        {
            using Database database = postgres is null ? new SqliteDatabase(folder) : new PostgresDatabase(postgres);
            await using var db = database.Open();
            db.ChangeTracker.QueryTrackingBehavior = QueryTrackingBehavior.NoTracking;
            if (await Schema(db, stop) is { IsGood: false } old)
            {
                lines.Add(old);
                return lines.ToImmutable();
            }

            lines.Add(Good("doctor.schema", database.Shown));
            lines.Add(await Integrity(database, db, stop));
            lines.Add(await Guards(database, db, stop));
            lines.Add(await Log(db, stop));
            lines.Add(await Photos(folder, db, stop));
            lines.Add(await Clock(db, now, stop));
            lines.AddRange(await Backups(folder, db, now, stop));
        }
        catch (Exception e) when (e is DbException or StoreUnusableException || e.GetBaseException() is DbException)
        {
            lines.Add(Bad("doctor.unreadable", postgres is null ? folder.Database : "PostgreSQL", e.GetBaseException().Message.TrimEnd('.')));
        }

        return lines.ToImmutable();
    }

    /// <summary>Looks at what takes no time and can change every hour, for a page and for machines that watch.</summary>
    /// <returns>Database, disk, clock and backups; only the database's line where it does not answer.</returns>
    /// <param name="store">The store.</param>
    /// <param name="stop">Ends it.</param>
    public static async Task<ImmutableArray<HealthLine>> Glance(this ShopStore store, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        var lines = ImmutableArray.CreateBuilder<HealthLine>();
        try
        {
            await using var db = store.Database.Open();
            db.ChangeTracker.QueryTrackingBehavior = QueryTrackingBehavior.NoTracking;
            lines.Add(await Schema(db, stop) is { IsGood: false } old ? old : Good("doctor.schema", store.Shown));
            lines.Add(Disk(store.FreeSpace(store.Folder.Path)));
            lines.Add(store.Now < ThisProgram ? Bad("doctor.clock-early", Shown(store.Now)) : await Clock(db, store.Now, stop));
            lines.AddRange(await Backups(store.Folder, db, store.Now, stop));
        }
        catch (Exception e) when (e is DbException or IOException || e.GetBaseException() is DbException)
        {
            return [Bad("doctor.unreadable", store.Shown, e.GetBaseException().Message.TrimEnd('.'))];
        }

        return lines.ToImmutable();
    }

    private static HealthLine Disk(long free) =>
        free >= LeastFree ? Good("doctor.disk", Megabytes(free)) : Bad("doctor.disk-full", Megabytes(free), Megabytes(LeastFree));

    private static async Task<HealthLine> Schema(ShopDb db, CancellationToken stop)
    {
        var known = db.Database.GetMigrations().ToList();
        var applied = (await db.Database.GetAppliedMigrationsAsync(stop)).ToList();
        return applied.FirstOrDefault(migration => !known.Contains(migration)) is { } newer ? Bad("doctor.schema-newer", Database.SchemaName(newer))
            : applied.Count < known.Count ? Bad("doctor.schema-older", (known.Count - applied.Count).ToString(CultureInfo.InvariantCulture))
            : Good("doctor.schema");
    }

    private static async Task<HealthLine> Integrity(Database database, ShopDb db, CancellationToken stop)
    {
        var found = await database.Integrity(db, stop);
        return found.Count == 0 ? Good("doctor.integrity") : Bad("doctor.integrity-bad", string.Join("; ", found.Take(5)));
    }

    private static async Task<HealthLine> Guards(Database database, ShopDb db, CancellationToken stop)
    {
        var missing = AppendOnly.Guards.Except(await database.GuardsThere(db, stop)).ToList();
        return missing.Count == 0 ? Good("doctor.guards") : Bad("doctor.guards-missing", string.Join(", ", missing));
    }

    private static async Task<HealthLine> Log(ShopDb db, CancellationToken stop)
    {
        var log = await LogOfTheShop.Check(db, stop);
        return log.FirstBroken is { } broken
            ? Bad("doctor.log-broken", Number(broken))
            : Good("doctor.log", Number(log.Entries));
    }

    private static async Task<HealthLine> Photos(DataFolder folder, ShopDb db, CancellationToken stop)
    {
        long count = 0;
        long missing = 0;
        await foreach (string hash in db.Photos.Select(row => row.Hash).AsAsyncEnumerable().WithCancellation(stop))
        {
            count++;
            if (!File.Exists(folder.PhotoPath(hash)))
                missing++;
        }

        return missing == 0 ? Good("doctor.photos", Number(count)) : Bad("doctor.photos-missing", Number(missing), Number(count));
    }

    // What was written in the future was written by a clock that was wrong, or is read by one that is.
    private static async Task<HealthLine> Clock(ShopDb db, Instant now, CancellationToken stop)
    {
        Instant?[] written =
        [
            await db.WorkLog.OrderByDescending(row => row.Sequence).Select(row => (Instant?)row.Recorded).FirstOrDefaultAsync(stop),
            await db.Audit.MaxAsync(row => (Instant?)row.At, stop),
            await db.Repairs.MaxAsync(row => (Instant?)row.Changed, stop),
        ];
        return written.Max() is { } last && last > now + Duration.FromMinutes(5)
            ? Bad("doctor.clock-behind", Shown(now), Shown(last))
            : Good("doctor.clock", Shown(now));
    }

    private static async Task<List<HealthLine>> Backups(DataFolder folder, ShopDb db, Instant now, CancellationToken stop)
    {
        var settings = await db.Settings.Where(row => row.Key == Backup.LastSetting || row.Key == KeepingCopies.FaultSetting).ToDictionaryAsync(row => row.Key, row => row.Value, stop);
        var lines = new List<HealthLine> { Age(settings.GetValueOrDefault(Backup.LastSetting), now) };
        lines.AddRange(KeepingCopies.FaultsOf(settings.GetValueOrDefault(KeepingCopies.FaultSetting)).Select(fault => new HealthLine(false, fault.Key, fault.Args)));
        if (CopyShelf.DamagedIn(folder.Copies) is { IsEmpty: false } damaged)
            lines.Add(Bad("doctor.copies-damaged", string.Join(", ", damaged), folder.Copies));
        return lines;
    }

    private static HealthLine Age(string? written, Instant now)
    {
        if (written is null || !InstantPattern.ExtendedIso.Parse(written).TryGetValue(default, out var last))
            return Bad("doctor.no-backup");
        var age = now - last;
        return age > CopiesState.Oldest ? Bad("doctor.backup-old", Number((long)Math.Floor(age.TotalDays))) : Good("doctor.backup", Shown(last));
    }

    private static string Shown(Instant instant) => instant.ToString("uuuu-MM-dd HH:mm", CultureInfo.InvariantCulture);

    private static string Number(long number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Megabytes(long bytes) => Number(bytes / 1_000_000);

    private static HealthLine Good(string key, params string[] args) => new(true, key, [.. args]);

    private static HealthLine Bad(string key, params string[] args) => new(false, key, [.. args]);
}
