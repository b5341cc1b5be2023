using System.Globalization;
using NodaTime;

namespace Seamwright.Storage.Databases;

/// <summary>How far bringing a database up to date is.</summary>
/// <param name="Key">Key of the sentence.</param>
/// <param name="Args">Values for the sentence's places.</param>
public sealed record UpgradeStep(string Key, System.Collections.Immutable.ImmutableArray<string> Args);

/// <summary>What bringing a database up to date needs to know.</summary>
/// <param name="Folder">The data folder.</param>
/// <param name="Now">When it begins.</param>
/// <param name="FreeSpace">Free space on the disk of a folder. [bytes]</param>
/// <param name="Progress">Told each step as it begins; null = nobody.</param>
internal sealed record Upgrading(DataFolder Folder, Instant Now, Func<string, long> FreeSpace, IProgress<UpgradeStep>? Progress)
{
    /// <summary>Beginning of the names of copies that an upgrade makes.</summary>
    public const string CopyPrefix = "before-upgrade-";

    /// <summary>Tells a step.</summary>
    public void Tell(string key, params object[] args) =>
        Progress?.Report(new(key, [.. args.Select(arg => Convert.ToString(arg, CultureInfo.InvariantCulture) ?? "")]));

    /// <summary>Where the copy of what was there lies.</summary>
    public string CopyOf(string schema, string extension) => Path.Combine(
        Folder.Copies, $"{CopyPrefix}{schema}-{Now.ToString("uuuuMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture)}{extension}");
}
