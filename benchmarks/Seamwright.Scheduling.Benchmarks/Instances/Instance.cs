namespace Seamwright.Scheduling.Benchmarks.Instances;

/// <summary>One problem of a set; the set is the folder that the file lies in.</summary>
internal sealed record Instance(string Set, string Name, MakespanProblem Problem)
{
    private static readonly string[] Endings = [".sm", ".mm", ".txt", ".sch"];

    /// <summary>Every instance of a folder, in the order of their names. Files with other endings are passed over.</summary>
    public static List<Instance> Folder(string folder)
    {
        if (!Directory.Exists(folder))
            throw new UnreadableInstanceException(folder, 0, "there is no such folder.");
        string set = Path.GetFileName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder)));
        string[] files = [.. Directory.EnumerateFiles(folder).Where(f => Endings.Contains(Path.GetExtension(f).ToLowerInvariant())).Order(StringComparer.Ordinal)];
        return files.Length == 0
            ? throw new UnreadableInstanceException(folder, 0, $"there is no instance file ({string.Join(", ", Endings)}).")
            : [.. files.Select(f => new Instance(set, Path.GetFileName(f), Read(f, File.ReadAllText(f))))];
    }

    /// <summary>The problem in a text whose format the ending tells.</summary>
    public static MakespanProblem Read(string file, string text)
    {
        string name = Path.GetFileName(file);
        MakespanProblem problem = Path.GetExtension(file).Equals(".sch", StringComparison.OrdinalIgnoreCase)
            ? TimeLagFile.Read(name, text)
            : PrecedenceFile.Read(name, text);
        return problem.Mistakes() is { IsEmpty: false } mistakes ? throw new UnreadableInstanceException(name, 0, mistakes[0]) : problem;
    }
}
