namespace Seamwright.Files.Trees;

/// <summary>Problems found so far, in all files. One bad file cannot fill the screen: beyond a limit problems are only counted.</summary>
internal sealed class ProblemList
{
    /// <summary>Most problems shown of one file.</summary>
    public const int ShownPerFile = 100;

    private readonly List<FileProblem> _problems = [];
    private readonly List<FileProblem> _notices = [];
    private readonly Dictionary<string, int> _counts = [];

    public int Count { get; private set; }

    /// <summary>Whether one more problem of a file would be shown: beyond that no effort goes into its words.</summary>
    public bool ShowsMoreOf(string file) => _counts.GetValueOrDefault(file) < ShownPerFile;

    public IReadOnlyList<FileProblem> Notices => _notices;

    public void Add(FileProblem problem)
    {
        Count++;
        int count = _counts.GetValueOrDefault(problem.File) + 1;
        _counts[problem.File] = count;
        if (count <= ShownPerFile)
            _problems.Add(problem);
    }

    /// <summary>A problem that is told only as part of a number.</summary>
    public void CountOnly() => Count++;

    public void Note(FileProblem notice) => _notices.Add(notice);

    /// <summary>Problems by file in order of first mention, then by place.</summary>
    public IEnumerable<FileProblem> Shown()
    {
        foreach (var file in _problems.GroupBy(problem => problem.File))
        {
            foreach (var problem in file.OrderBy(problem => problem.Line).ThenBy(problem => problem.Column))
                yield return problem;

            int hidden = _counts[file.Key] - ShownPerFile;
            if (hidden > 0)
                yield return new(file.Key, 0, 0, "", "file.more-problems", [Words.Number(hidden)]);
        }
    }
}
