using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>The project contradicts itself; no solver run was made.</summary>
public sealed class InvalidProjectException : Exception
{
    /// <summary>With every mistake found.</summary>
    /// <param name="mistakes">At least one sentence.</param>
    public InvalidProjectException(ImmutableArray<string> mistakes)
        : base(string.Join(Environment.NewLine, mistakes)) => Mistakes = mistakes;

    /// <summary>Every mistake, in the order in which the project lists its parts.</summary>
    public ImmutableArray<string> Mistakes { get; }
}
