namespace Seamwright.Scheduling.Benchmarks.Instances;

/// <summary>An instance file is not what its format says; the message is one sentence with file and line.</summary>
internal sealed class UnreadableInstanceException(string file, int line, string problem)
    : Exception(line > 0 ? $"{file}, line {line}: {problem}" : $"{file}: {problem}");
