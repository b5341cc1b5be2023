namespace Seamwright.Storage.Sqlite;

/// <summary>
/// Only one process may bring a database up to date. The system frees this lock when its holder dies, however it dies; so a mark that
/// the migration tool left in the database while somebody holds this lock was left by a dead process and can be cleared.
/// </summary>
internal static class MigrationTurn
{
    /// <summary>Waits for the turn.</summary>
    /// <exception cref="StoreUnusableException">Another process holds it beyond the limit.</exception>
    public static async Task<IDisposable> Take(string path, TimeSpan limit, CancellationToken stop)
    {
        var step = TimeSpan.FromMilliseconds(50);
        for (var waited = TimeSpan.Zero; ; waited += step)
        {
            try
            {
                return new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            }
            catch (IOException e) when (e is not (DirectoryNotFoundException or PathTooLongException))
            {
                if (waited >= limit)
                    throw new StoreUnusableException(e, "store.migrating-elsewhere", path);
                await Task.Delay(step, stop);
            }
        }
    }
}
