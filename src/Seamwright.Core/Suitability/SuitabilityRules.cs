using System.Collections.Immutable;
using Seamwright.Repairs;
using Seamwright.Suitability.Rules;

namespace Seamwright.Suitability;

/// <summary>May this material go on this joint? All rule families, in the order in which a technician asks.</summary>
public static class SuitabilityRules
{
    /// <summary>Every rule on joints, the maker's procedure first; one file a family in <c>Suitability/Rules</c>.</summary>
    public static ImmutableArray<Rule<JointCase>> All { get; } =
    [
        .. ProcedureRules.All,
        .. WantedRules.All,
        .. FunctionRules.All,
        .. SeamRules.All,
        .. SurfaceRules.All,
        .. TorsionRules.All,
        .. AboveRules.All,
        .. PositionRules.All,
        .. LookRules.All,
        .. DepthRules.All,
        .. HandlingRules.All,
        .. StripRules.All,
        .. GalvanicRules.All,
        .. WeldThroughRules.All,
        .. SystemRules.All,
        .. HotWorkRules.All,
        .. DrainRules.All,
    ];

    /// <summary>
    /// The full list of verdicts, one a rule in the order of <see cref="All"/>, fine ones too. The maker's procedure and recorded
    /// sign-offs are worked in: what they set aside stands in <see cref="Verdict.SetAside"/>.
    /// </summary>
    public static ImmutableArray<Verdict> Judge(JointCase subject) =>
        [.. All.Select(rule => JudgeBy(rule, subject))];

    /// <summary>Whether <see cref="Judge"/> would find nothing refused and no sign-off missing; it stops at the first rule that does.</summary>
    public static bool MayBeUsed(JointCase subject)
    {
        foreach (var rule in All)
        {
            if (JudgeBy(rule, subject).Kind > VerdictKind.Advice)
                return false;
        }
        return true;
    }

    private static Verdict JudgeBy(Rule<JointCase> rule, JointCase subject) => SignedOff(subject, ProcedureRules.Outranked(subject, rule.Judge(subject)));

    private static Verdict SignedOff(JointCase subject, Verdict verdict)
    {
        if (verdict.Kind != VerdictKind.NeedsSignOff)
            return verdict;

        foreach (var signOff in subject.Repair.SignOffs)
        {
            if (signOff.Place == subject.Joint.Id && signOff.Material == subject.Sheet.Id && signOff.RuleId == verdict.RuleId)
            {
                return new Verdict(
                    VerdictKind.Advice,
                    verdict.RuleId,
                    Reason.Of("signed-off", signOff.Role, signOff.By, signOff.Reason),
                    verdict.Source)
                { SetAside = verdict };
            }
        }
        return verdict;
    }
}
