using System.Collections.Immutable;
using System.Data.Common;
using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;

namespace Seamwright.Storage.Copies;

/// <summary>What is known of the copies.</summary>
/// <param name="LastGood">When the last backup was written that is known to restore; null = never.</param>
/// <param name="Faults">What went wrong with the last copy; empty = nothing.</param>
/// <param name="Copies">Good copies in the data folder, the oldest first.</param>
/// <param name="Damaged">Names of copies that are not as they were written any more.</param>
public sealed record CopiesState(Instant? LastGood, ImmutableArray<BackupFault> Faults, ImmutableArray<CopyFile> Copies, ImmutableArray<string> Damaged)
{
    /// <summary>A last good backup older than this is too old. [common practice, no source]</summary>
    public static Duration Oldest { get; } = Duration.FromDays(2);

    /// <summary>Whether the last good backup is young enough.</summary>
    /// <param name="now">Now.</param>
    public bool IsFresh(Instant now) => LastGood is { } last && now - last <= Oldest;
}

/// <summary>Makes the daily copy, proves it, looks at the older ones and takes away what need not stay.</summary>
public static class KeepingCopies
{
    /// <summary>Setting with what went wrong with the last copy.</summary>
    internal const string FaultSetting = "copies.faults";

    private static readonly Duration Leftover = Duration.FromHours(12);

    /// <summary>Makes a copy now.</summary>
    /// <returns>What went wrong; empty = a good copy is there, in both places where there are two.</returns>
    /// <param name="store">The store.</param>
    /// <param name="rule">Where and how.</param>
    /// <param name="by">Who asks for it.</param>
    /// <param name="stop">Ends it.</param>
    public static async Task<ImmutableArray<BackupFault>> MakeDailyCopy(this ShopStore store, CopyRule rule, string by, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(rule);
        var faults = ImmutableArray.CreateBuilder<BackupFault>();
        try
        {
            ClearLeftovers(store);
            string file = Path.Combine(store.Folder.Copies, CopyShelf.Name(store.Now) + CopyShelf.Open);
            if ((await store.WriteBackup(file, by, stop)).Fault is { } fault)
                faults.Add(fault);
            else if (rule.Second is not null && await SecondCopy.Make(file, rule, stop) is { } second)
                faults.Add(second);
            foreach (var copy in CopyShelf.In(store.Folder.Copies).Where(copy => copy.Path != file))
                await SetAsideWhereDamaged(copy, stop);
            if (faults.Count == 0)
                ThinOut(store.Folder.Copies, rule.Zone);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            faults.Add(BackupFault.Of("copies.disk", e.Message.TrimEnd('.')));
        }
        catch (Exception e) when (e is DbException || e.GetBaseException() is DbException)
        {
            faults.Add(BackupFault.Of("copies.database", e.GetBaseException().Message.TrimEnd('.')));
        }

        await NoteFaults(store, faults.ToImmutable(), by, stop);
        return faults.ToImmutable();
    }

    /// <summary>What is known of the copies.</summary>
    /// <param name="store">The store.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static async Task<CopiesState> CopiesNow(this ShopStore store, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        var settings = await store.Settings(stop);
        return new(
            settings.TryGetValue(Backup.LastSetting, out var last) && InstantPattern.ExtendedIso.Parse(last.Value).TryGetValue(default, out var at) ? at : null,
            FaultsOf(settings.GetValueOrDefault(FaultSetting)?.Value),
            CopyShelf.In(store.Folder.Copies),
            CopyShelf.DamagedIn(store.Folder.Copies));
    }

    internal static ImmutableArray<BackupFault> FaultsOf(string? setting)
    {
        try
        {
            return setting is null ? [] : JsonSerializer.Deserialize<ImmutableArray<BackupFault>>(setting);
        }
        catch (JsonException)
        {
            return [];
        }
    }

    /// <summary>Takes away copies that need not stay.</summary>
    internal static void ThinOut(string folder, DateTimeZone zone)
    {
        var copies = CopyShelf.In(folder);
        foreach (var copy in copies.Except(CopyShelf.ToKeep(copies, zone)))
            File.Delete(copy.Path);
    }

    // Disks forget: a copy that nobody reads until it is needed may long be gone.
    private static async Task SetAsideWhereDamaged(CopyFile copy, CancellationToken stop)
    {
        if (Path.GetExtension(copy.Path) == CopyShelf.Open && (await BackupCheck.Check(copy.Path, stop)).Fault is not null)
            File.Move(copy.Path, copy.Path + CopyShelf.Damaged, overwrite: true);
    }

    // What a process left behind that was killed while it made a copy.
    private static void ClearLeftovers(ShopStore store)
    {
        var old = (store.Now - Leftover).ToDateTimeUtc();
        foreach (var folder in new DirectoryInfo(store.Folder.Copies).EnumerateDirectories(Trial.Prefix + "*").Where(folder => folder.LastWriteTimeUtc < old))
            folder.Delete(recursive: true);
        foreach (var file in new DirectoryInfo(store.Folder.Copies).EnumerateFiles("*.part").Where(file => file.LastWriteTimeUtc < old))
            file.Delete();
    }

    private static async Task NoteFaults(ShopStore store, ImmutableArray<BackupFault> faults, string by, CancellationToken stop)
    {
        try
        {
            await store.ChangeSetting(FaultSetting, faults.IsEmpty ? null : JsonSerializer.Serialize(faults), by, stop);
            if (!faults.IsEmpty)
                await store.NoteAudit(by, "backup-failed", faults[0].Key, "console", stop: stop);
        }
        catch (Exception e) when (!faults.IsEmpty && (e is IOException or DbException || e.GetBaseException() is DbException))
        {
            // A store that takes nothing is told by whoever asked for the copy, from what is returned.
        }
    }
}
