namespace Seamwright.Suitability;

/// <summary>What a list of verdicts means together.</summary>
public static class Verdicts
{
    /// <summary>The worst kind of a list; <see cref="VerdictKind.Fine"/> for an empty one.</summary>
    public static VerdictKind Overall(IEnumerable<Verdict> verdicts) =>
        verdicts.Aggregate(VerdictKind.Fine, (worst, verdict) => verdict.Kind > worst ? verdict.Kind : worst);

    /// <summary>Those verdicts that are of the worst kind, in the order given; empty for an empty list.</summary>
    public static IEnumerable<Verdict> Deciding(IReadOnlyCollection<Verdict> verdicts)
    {
        var worst = Overall(verdicts);
        return verdicts.Where(verdict => verdict.Kind == worst);
    }

    /// <summary>Whether the material may be used without anybody's further consent: nothing refused and no sign-off missing.</summary>
    public static bool MayBeUsed(IEnumerable<Verdict> verdicts) => Overall(verdicts) <= VerdictKind.Advice;
}
