using System.Collections.Immutable;
using Seamwright.Repairs;

namespace Seamwright.Suitability.Rules;

/// <summary>The vehicle maker's procedure: what it requires, forbids and allows for this joint. It outranks every other family.</summary>
internal static class ProcedureRules
{
    private const string Source = "vehicle maker's repair procedure";

    internal static ImmutableArray<Rule<JointCase>> All { get; } =
    [
        new("procedure.requires", Source, Requires),
        new("procedure.forbids", Source, Forbids),
        new("procedure.allows", Source, Allows),
    ];

    /// <summary>
    /// A general rule's refusal, turned into advice where the procedure allows the material here. Function and missing seam yield only
    /// to a statement that names exactly this joint and this material.
    /// </summary>
    internal static Verdict Outranked(JointCase subject, Verdict verdict)
    {
        if (verdict.Kind < VerdictKind.NeedsSignOff || IsNoGeneralRule(verdict.RuleId))
            return verdict;

        bool onlyByExactName = verdict.RuleId.StartsWith("function.", StringComparison.Ordinal);
        bool requiredIsEnough = onlyByExactName || verdict.RuleId.StartsWith("seam.", StringComparison.Ordinal);
        foreach (var statement in Speaking(subject))
        {
            bool counts = statement.Kind == ProcedureKind.Allows || (statement.Kind == ProcedureKind.Requires && requiredIsEnough);
            bool names = onlyByExactName || statement.Kind == ProcedureKind.Requires
                ? NamesExactly(subject, statement)
                : statement.Names(subject.Sheet);
            if (counts && names)
                return new Verdict(VerdictKind.Advice, verdict.RuleId, Reason.Of("allowed-by-procedure", statement.Text), SourceOf(subject)) { SetAside = verdict };
        }
        return verdict;
    }

    private static Finding Requires(JointCase subject)
    {
        var required = Speaking(subject).Where(s => s.Kind == ProcedureKind.Requires).ToList();
        if (required.Count == 0)
            return Finding.Fine("procedure-requires-nothing", subject.Joint.Id).From(SourceOf(subject));

        // A statement about this joint outranks one about all joints.
        var deciding = required.Exists(s => s.Place is not null) ? required.FindAll(s => s.Place is not null) : required;
        var met = deciding.Find(s => s.Names(subject.Sheet));
        if (met is not null)
            return Finding.Fine("procedure-requires-this", subject.Sheet.Id, met.Text).From(SourceOf(subject));

        return AllowedHere(subject, deciding[0].Place is not null)
            ? Finding.Advice("procedure-requires-other-allows-this", subject.Sheet.Id, deciding[0].Text).From(SourceOf(subject))
            : Finding.Refused("procedure-requires-other", subject.Sheet.Id, deciding[0].Text).From(SourceOf(subject));
    }

    private static Finding Forbids(JointCase subject)
    {
        var forbidding = Speaking(subject)
            .Where(s => s.Kind == ProcedureKind.Forbids && s.Names(subject.Sheet))
            .OrderBy(s => s.Place is null)
            .FirstOrDefault();
        if (forbidding is null)
            return Finding.Fine("procedure-forbids-nothing", subject.Sheet.Id).From(SourceOf(subject));

        return AllowedHere(subject, forbidding.Place is not null)
            ? Finding.Advice("procedure-forbids-but-allows-here", subject.Sheet.Id, forbidding.Text).From(SourceOf(subject))
            : Finding.Refused("procedure-forbids", subject.Sheet.Id, forbidding.Text).From(SourceOf(subject));
    }

    private static Finding Allows(JointCase subject)
    {
        var allowing = Speaking(subject).FirstOrDefault(s => s.Kind == ProcedureKind.Allows && s.Names(subject.Sheet));
        return allowing is null
            ? Finding.Fine("procedure-allows-nothing-special", subject.Sheet.Id).From(SourceOf(subject))
            : Finding.Fine("procedure-allows", subject.Sheet.Id, allowing.Text).From(SourceOf(subject));
    }

    /// <summary>An allowance for this very joint sets a statement about all joints aside, never one about this joint.</summary>
    private static bool AllowedHere(JointCase subject, bool againstThisJoint) =>
        !againstThisJoint
        && Speaking(subject).Any(s => s.Kind == ProcedureKind.Allows && s.Place is not null && s.Names(subject.Sheet));

    private static bool NamesExactly(JointCase subject, ProcedureStatement statement) =>
        statement.Place == subject.Joint.Id && statement.Materials.Contains(subject.Sheet.Id);

    /// <summary>The procedure's own rules, and what the technician insists on: that a material is allowed makes it no one's choice.</summary>
    private static bool IsNoGeneralRule(string ruleId) =>
        ruleId.StartsWith("procedure.", StringComparison.Ordinal) || ruleId.StartsWith("wanted.", StringComparison.Ordinal);

    private static IEnumerable<ProcedureStatement> Speaking(JointCase subject) =>
        subject.Repair.Procedure.Where(s => s.Place is null || s.Place == subject.Joint.Id);

    private static string SourceOf(JointCase subject) =>
        subject.Repair.ProcedureReference.Length == 0 ? Source : subject.Repair.ProcedureReference;
}
