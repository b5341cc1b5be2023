using System.Collections.Immutable;
using NodaTime;
using Seamwright.Files.Format;
using Seamwright.Files.Trees;
using Seamwright.Files.Typed;
using Seamwright.Work;

namespace Seamwright.Files;

/// <summary>Reads repairs with everything they refer to. Tells every problem of every file at once; throws nothing for bad input; writes nothing.</summary>
public static class RepairReader
{
    private static readonly ImmutableArray<string> FileNames = ["repair.yaml", "repair.yml", "repair.json"];

    /// <summary>How deep repairs may lie below their shop's file: a year's folder with one a repair, and one level to spare.</summary>
    private const int LevelsBelowShop = 3;

    /// <summary>Reads a repair.</summary>
    /// <param name="path">A repair file, or a folder with <c>repair.yaml</c>, <c>repair.yml</c> or <c>repair.json</c>.</param>
    public static Reading Read(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        var problems = new ProblemList();
        return Find(path, problems) is { } file ? Read(file, new FileSet(problems)) : new(null, [.. problems.Shown()], []);
    }

    /// <summary>Reads a repair from documents in memory, exactly as from files.</summary>
    /// <param name="name">Name of the repair's document.</param>
    /// <param name="documents">All documents by the names under which they refer to each other.</param>
    /// <param name="isLive">True where the moment of planning is the clock's: a promise may then have passed.</param>
    public static Reading Read(string name, ImmutableDictionary<string, ReadOnlyMemory<byte>> documents, bool isLive = false)
    {
        ArgumentNullException.ThrowIfNull(name);
        ArgumentNullException.ThrowIfNull(documents);
        return Read(name, new FileSet(new ProblemList(), FileSource.InMemory(documents)) { IsLive = isLive });
    }

    private static Reading Read(string file, FileSet files)
    {
        var input = files.Open(file, RepairFormat.File, RepairFormat.Line) is { } map ? new RepairBuilder(files).Read(map) : null;
        return new(files.Problems.Count == 0 ? input : null, [.. files.Problems.Shown()], [.. files.Problems.Notices]);
    }

    /// <summary>
    /// The repairs that are planned together: those in the folders right below a folder, or those below a shop file's folder that name this shop;
    /// in the order of their names. Empty where there are none, or the path is a repair itself.
    /// </summary>
    /// <param name="path">A folder or a shop file.</param>
    public static ImmutableArray<string> RepairsBelow(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        if (IsShop(path))
            return RepairsOf(path);
        if (!Directory.Exists(path) || IsRepair(path))
            return [];
        return [.. Directory.EnumerateDirectories(path).Where(IsRepair).Order(StringComparer.Ordinal)];

        static bool IsRepair(string folder) => FileNames.Any(name => File.Exists(Path.Combine(folder, name)));
    }

    /// <summary>Whether a path is a shop file.</summary>
    public static bool IsShop(string path) => File.Exists(path) && VersionLine.Of(path) == ShopFormat.Line;

    private static ImmutableArray<string> RepairsOf(string shop)
    {
        string folder = Path.GetDirectoryName(shop) is { Length: > 0 } named ? named : ".";
        var below = new EnumerationOptions { RecurseSubdirectories = true, MaxRecursionDepth = LevelsBelowShop, IgnoreInaccessible = true };
        string itself = Path.GetFullPath(shop);
        return [.. Directory.EnumerateFiles(folder, "repair.*", below).Where(IsOfShop).Order(StringComparer.Ordinal)];

        bool IsOfShop(string file) =>
            FileNames.Contains(Path.GetFileName(file))
            && VersionLine.KeyOf(file, "shop") is { } named
            && Path.GetFullPath(Path.Combine(Path.GetDirectoryName(file)!, named)) == itself;
    }

    /// <summary>
    /// Checks one file of any kind by its version line: a shop, materials, stock, climate or work log file by itself, a repair with everything it
    /// refers to. Names of materials in a stock file are not checked then.
    /// </summary>
    public static ImmutableArray<FileProblem> Check(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        var files = new FileSet(new ProblemList());
        switch (Find(path, files.Problems) is { } file ? VersionLine.Of(file) : null)
        {
            case ShopFormat.Line when files.Open(path, ShopFormat.File, ShopFormat.Line) is { } map:
                ShopReader.Read(map);
                break;
            case MaterialsFormat.Line when files.Open(path, MaterialsFormat.File, MaterialsFormat.Line) is { } map:
                _ = MaterialsReader.Read(map, "").Count();
                break;
            case StockFormat.Line when files.Open(path, StockFormat.File, StockFormat.Line) is { } map:
                new StockReader(DateTimeZone.Utc, null, null).Read(map);
                break;
            case ClimateFormat.Line when files.Open(path, ClimateFormat.File, ClimateFormat.Line) is { } map:
                new ClimateReader(files, DateTimeZone.Utc, null).Read(map);
                break;
            case WorkLogFormat.Line when files.Open(path, WorkLogFormat.File, WorkLogFormat.Line) is { } map:
                WorkLogReader.Check(files, map);
                break;
            case WorkLogFormat.Line or ShopFormat.Line or MaterialsFormat.Line or StockFormat.Line or ClimateFormat.Line:
                break;      // what kept it from opening has been told
            default:
                return Read(path).Problems;
        }

        return [.. files.Problems.Shown()];
    }

    /// <summary>The file of a repair that is there.</summary>
    internal static string FileOf(string path) => Find(path, new ProblemList()) ?? path;

    private static string? Find(string path, ProblemList problems)
    {
        if (path.Contains('\0') || path.Length == 0)
        {
            problems.Add(new(Words.Quote(path), 0, 0, "", "file.missing", []));
            return null;
        }

        if (!Directory.Exists(path))
            return path;
        foreach (string name in FileNames)
        {
            if (File.Exists(Path.Combine(path, name)))
                return Path.Combine(path, name);
        }

        problems.Add(new(path, 0, 0, "", "file.no-repair-in-folder", []));
        return null;
    }
}
