using System.Collections.Immutable;

namespace Seamwright.Suitability;

/// <summary>How a rule judges a material on a joint. Ordered from best to worst.</summary>
public enum VerdictKind
{
    /// <summary>Nothing against it.</summary>
    Fine,

    /// <summary>Allowed, with something to know or to do.</summary>
    Advice,

    /// <summary>Only with the recorded consent of somebody entitled to it.</summary>
    NeedsSignOff,

    /// <summary>Not allowed.</summary>
    Refused,
}

/// <summary>Why, as a key of the text resources with typed facts (temperatures, lengths, times, names) that the edge puts into words and units.</summary>
/// <param name="Key">Key of the sentence.</param>
/// <param name="Facts">Values for the sentence's places, in order.</param>
public sealed record Reason(string Key, ImmutableArray<object> Facts)
{
    /// <summary>A reason from its key and facts.</summary>
    public static Reason Of(string key, params ReadOnlySpan<object> facts) => new(key, [.. facts]);

    /// <summary>Same key and same facts in the same order.</summary>
    public bool Equals(Reason? other) => other is not null && Key == other.Key && Facts.SequenceEqual(other.Facts);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Key, Facts.Length);
}

/// <summary>What one rule says of one material on one joint.</summary>
/// <param name="Kind">Judgement.</param>
/// <param name="RuleId">Which rule, for example <c>surface.etch</c>.</param>
/// <param name="Reason">Why, with the numbers.</param>
/// <param name="Source">Sheet, standard, procedure or <c>common practice</c>.</param>
public sealed record Verdict(VerdictKind Kind, string RuleId, Reason Reason, string Source)
{
    /// <summary>What the rule said before a sign-off or the maker's procedure set it aside; null = as the rule judged.</summary>
    public Verdict? SetAside { get; init; }
}
