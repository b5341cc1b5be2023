using System.Collections.Immutable;

namespace Seamwright.Suitability;

/// <summary>One rule: a name, where it comes from, and a function that judges a case. Always exactly one verdict a case.</summary>
/// <typeparam name="TCase">What is judged.</typeparam>
/// <param name="Id">Name, family before the dot, for example <c>surface.etch</c>.</param>
/// <param name="Source">Standard, trade source or <c>common practice</c>; a verdict that rests on the sheet names the sheet instead.</param>
/// <param name="Find">What the rule finds in a case.</param>
public sealed record Rule<TCase>(string Id, string Source, Func<TCase, Finding> Find)
{
    /// <summary>The verdict on a case.</summary>
    public Verdict Judge(TCase subject)
    {
        var finding = Find(subject);
        return new Verdict(finding.Kind, Id, finding.Reason, finding.Source ?? Source);
    }
}

/// <summary>What a rule finds, before it is given the rule's name.</summary>
/// <param name="Kind">Judgement.</param>
/// <param name="Reason">Why, with the numbers.</param>
/// <param name="Source">Source of this finding where it is not the rule's own, for example the data sheet; null = the rule's own.</param>
public sealed record Finding(VerdictKind Kind, Reason Reason, string? Source = null)
{
    /// <summary>The rule has nothing to look at here, for example a strip rule and a paste.</summary>
    public static Finding NotConcerned { get; } = Fine("not-concerned");

    /// <summary>Nothing against it.</summary>
    public static Finding Fine(string key, params ReadOnlySpan<object> facts) => new(VerdictKind.Fine, new Reason(key, [.. facts]));

    /// <summary>Allowed, with something to know or to do.</summary>
    public static Finding Advice(string key, params ReadOnlySpan<object> facts) => new(VerdictKind.Advice, new Reason(key, [.. facts]));

    /// <summary>Only with somebody's consent.</summary>
    public static Finding NeedsSignOff(string key, params ReadOnlySpan<object> facts) => new(VerdictKind.NeedsSignOff, new Reason(key, [.. facts]));

    /// <summary>Not allowed.</summary>
    public static Finding Refused(string key, params ReadOnlySpan<object> facts) => new(VerdictKind.Refused, new Reason(key, [.. facts]));

    /// <summary>The same finding, resting on this source.</summary>
    public Finding From(string source) => this with { Source = source };
}
