using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace Seamwright.Storage.Copies;

/// <summary>A daily copy that lies in a folder.</summary>
/// <param name="Path">The file.</param>
/// <param name="Written">When it was written.</param>
/// <param name="Bytes">Its size. [bytes]</param>
public sealed record CopyFile(string Path, Instant Written, long Bytes);

/// <summary>Daily copies by their names, and which of them stay.</summary>
public static class CopyShelf
{
    /// <summary>Days of which the last copy stays. [common practice, no source]</summary>
    public const int Days = 7;

    /// <summary>Weeks, from Monday, of which the last copy stays. [common practice, no source]</summary>
    public const int Weeks = 5;

    /// <summary>Months of which the last copy stays. [common practice, no source]</summary>
    public const int Months = 12;

    /// <summary>End of a name: an open archive.</summary>
    internal const string Open = ".seamwright";

    /// <summary>End of a name: an archive under a passphrase.</summary>
    internal const string Sealed = ".sealed";

    /// <summary>Added to the name of a copy that was good once and is not as it was written any more.</summary>
    internal const string Damaged = ".damaged";

    private const string Beginning = "daily-";

    private static readonly InstantPattern Moment = InstantPattern.CreateWithInvariantCulture("uuuuMMdd'T'HHmmss'Z'");

    /// <summary>Name of a copy written at a moment; no end.</summary>
    internal static string Name(Instant written) => Beginning + Moment.Format(written);

    /// <summary>Copies of a folder, the oldest first; damaged ones are left out.</summary>
    /// <param name="folder">The folder; may be missing.</param>
    public static ImmutableArray<CopyFile> In(string folder) => !Directory.Exists(folder) ? [] :
    [
        .. from file in new DirectoryInfo(folder).EnumerateFiles(Beginning + "*")
           where file.Extension is Open or Sealed
           let written = Moment.Parse(System.IO.Path.GetFileNameWithoutExtension(file.Name)[Beginning.Length..])
           where written.Success
           orderby written.Value
           select new CopyFile(file.FullName, written.Value, file.Length),
    ];

    /// <summary>Names of copies that were found damaged, in order.</summary>
    /// <param name="folder">The folder; may be missing.</param>
    public static ImmutableArray<string> DamagedIn(string folder) => !Directory.Exists(folder) ? [] :
        [.. new DirectoryInfo(folder).EnumerateFiles($"{Beginning}*{Damaged}").Select(file => file.Name[..^Damaged.Length]).Order(StringComparer.Ordinal)];

    /// <summary>
    /// Copies that stay: the last of each of the youngest days, weeks and months that have any. Counted and not measured from now: a clock that
    /// jumps ahead takes nothing away.
    /// </summary>
    /// <param name="copies">All of them.</param>
    /// <param name="zone">Zone of the days.</param>
    public static ImmutableHashSet<CopyFile> ToKeep(IEnumerable<CopyFile> copies, DateTimeZone zone)
    {
        var all = copies.ToList();
        return [.. Last(Days, date => date), .. Last(Weeks, Monday), .. Last(Months, date => new LocalDate(date.Year, date.Month, 1))];

        IEnumerable<CopyFile> Last(int most, Func<LocalDate, LocalDate> span) => all
            .GroupBy(copy => span(copy.Written.InZone(zone).Date))
            .OrderByDescending(group => group.Key)
            .Take(most)
            .Select(group => group.MaxBy(copy => copy.Written)!);
    }

    private static LocalDate Monday(LocalDate date) => date.PlusDays(IsoDayOfWeek.Monday - date.DayOfWeek);
}

/// <summary>When copies are made, and where a second one goes.</summary>
/// <param name="At">Time of day.</param>
/// <param name="Zone">Zone of that time.</param>
/// <param name="Second">A further folder, on another disk; null = none.</param>
/// <param name="Passphrase">Passphrase that seals the second copy; null = it lies open.</param>
public sealed record CopyRule(LocalTime At, DateTimeZone Zone, string? Second = null, string? Passphrase = null)
{
    /// <summary>Setting with the time of day, as <c>HH:mm</c>.</summary>
    public const string TimeSetting = "copies.time";

    /// <summary>Time where none is set: when nobody works. [common practice, no source]</summary>
    public static LocalTime UsualTime { get; } = new(2, 30);

    private static readonly LocalTimePattern Pattern = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    /// <summary>A time of day as the setting holds it.</summary>
    /// <param name="time">The time.</param>
    public static string Text(LocalTime time) => Pattern.Format(time);

    /// <summary>Reads the setting; null where it is no time of day.</summary>
    /// <param name="text">The setting.</param>
    public static LocalTime? TimeOf(string? text) => text is not null && Pattern.Parse(text.Trim()).TryGetValue(default, out var time) ? time : null;

    /// <summary>Whether a copy is to be made now: none has been written since the time of day last came by. A night switched off is caught up with.</summary>
    /// <param name="copies">Copies that are there.</param>
    /// <param name="now">Now.</param>
    public bool IsDue(IEnumerable<CopyFile> copies, Instant now)
    {
        var today = now.InZone(Zone).Date;
        var due = (today + At).InZoneLeniently(Zone).ToInstant();
        if (due > now)
            due = (today.PlusDays(-1) + At).InZoneLeniently(Zone).ToInstant();
        // A copy from the future was written by a clock that was wrong.
        return !copies.Any(copy => copy.Written >= due && copy.Written <= now + Duration.FromHours(1));
    }
}
