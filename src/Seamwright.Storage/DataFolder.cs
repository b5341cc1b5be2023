using System.Globalization;
using System.Runtime.Versioning;
using NodaTime;

namespace Seamwright.Storage;

/// <summary>The folder in which a shop's data lies, and what stands where in it.</summary>
/// <param name="Path">The folder itself.</param>
public sealed record DataFolder(string Path)
{
    /// <summary>The folder used where none is named: the application folder of whoever runs the program.</summary>
    public static DataFolder Usual { get; } = new(System.IO.Path.Combine(
        Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify), "seamwright"));

    /// <summary>The SQLite database; not there where PostgreSQL is used.</summary>
    public string Database => In("shop.db");

    /// <summary>Photos, each under its content's hash.</summary>
    public string Photos => In("photos");

    /// <summary>Keys that protect sign-ins.</summary>
    public string Keys => In("keys");

    /// <summary>Backups that the program makes by itself.</summary>
    public string Copies => In("copies");

    /// <summary>The copy on which an upgrade of SQLite works.</summary>
    internal string Upgrading => In("upgrading.db");

    /// <summary>Held while the database is brought up to date.</summary>
    internal string MigrationLock => In("migrating.lock");

    /// <summary>Whether anything was ever stored here.</summary>
    public bool Exists => Directory.Exists(Path);

    /// <summary>Makes the folder where it is missing; on Unix only its owner may look into it.</summary>
    /// <exception cref="IOException">The folder cannot be made.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder cannot be made.</exception>
    public void Create()
    {
        foreach (string folder in new[] { Path, Photos, Keys, Copies })
        {
            if (Directory.Exists(folder))
                continue;
            if (OperatingSystem.IsWindows())
                Directory.CreateDirectory(folder);
            else
                CreateForOwner(folder);
        }
    }

    /// <summary>Moves a SQLite database that cannot be read any more out of the way, with what belongs to it; nothing is deleted.</summary>
    /// <returns>The folder in which it lies now.</returns>
    /// <param name="now">Tells several of them apart.</param>
    /// <exception cref="IOException">It cannot be moved.</exception>
    public string SetDatabaseAside(Instant now)
    {
        string aside = In($"set-aside-{now.ToString("uuuuMMdd'T'HHmmss", CultureInfo.InvariantCulture)}");
        Directory.CreateDirectory(aside);
        foreach (string file in new[] { Database, Database + "-wal", Database + "-shm" }.Where(File.Exists))
            File.Move(file, System.IO.Path.Combine(aside, System.IO.Path.GetFileName(file)));
        return aside;
    }

    [UnsupportedOSPlatform("windows")]
    private static void CreateForOwner(string folder) =>
        Directory.CreateDirectory(folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);

    private string In(string name) => System.IO.Path.Combine(Path, name);
}
