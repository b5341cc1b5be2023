using NodaTime;
using Seamwright.Materials;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>Every seam is made once, of a material that may go there, in the amount it takes; where the factory had none, none is made.</summary>
internal static class SeamCheck
{
    public static IEnumerable<Reason> Of(CheckedPlan plan)
    {
        var wanted = plan.SeamJoints.Select(joint => joint.Id).ToHashSet();
        foreach (var joint in plan.Repair.Joints)
        {
            var seals = plan.On(joint.Id, StepKind.Seal).ToList();
            var decision = plan.Plan.Joints.FirstOrDefault(decided => decided.Joint == joint.Id);
            if (!wanted.Contains(joint.Id))
            {
                if (seals.Count > 0 || decision?.Material is not null)
                    yield return Reason.Of("check-no-seam-there", joint.Id);
                continue;
            }
            if (seals.Count != 1 || decision is null || plan.SheetOf(decision.Material) is not { } sheet)
            {
                yield return Reason.Of("check-sealed-once", joint.Id, seals.Count);
                continue;
            }
            var seal = seals[0];
            if (seal.Material != decision.Material || decision.Applied is not { } applied || applied.Start < seal.Start || applied.End > seal.End)
                yield return Reason.Of("check-joint-and-step", joint.Id, seal.Id);
            foreach (var reason in plan.IsSealed(joint.Id) ? [] : Admissible(plan, joint, decision, sheet))
                yield return reason;
        }
        foreach (var seal in plan.Steps.Where(step => step.Kind == StepKind.Seal))
        {
            if (!IsRightAmount(plan, seal))
                yield return Reason.Of("check-amount", seal.Id, seal.Amount);
        }
    }

    private static IEnumerable<Reason> Admissible(CheckedPlan plan, Joint joint, JointPlan decision, DataSheet sheet)
    {
        var now = plan.AfterHeat(joint);
        var coat = plan.SheetOf(now.Surface.Material);
        var primer = PreparationCheck.PrimerUnder(plan, joint);
        var route = PreparationRoutes.For(now, sheet, coat, primer, plan.Shop.Times).FirstOrDefault(route => route.Preparation == decision.Preparation);
        if (route is null)
        {
            yield return Reason.Of("check-preparation", joint.Id, decision.Preparation);
            yield break;
        }
        var verdicts = SuitabilityRules.Judge(JointCase.AsItLies(now, sheet, coat, plan.Repair, plan.Shop).After(route));
        foreach (var refused in verdicts.Where(verdict => verdict.Kind > VerdictKind.Advice))
            yield return Reason.Of("check-refused", joint.Id, sheet.Id, refused.Reason);
        if (!route.PrimerMayGo)
            yield return Reason.Of("check-primer-refused", joint.Id, primer!.Id, Verdicts.Deciding(route.PrimerVerdicts).First().Reason);
    }

    private static bool IsRightAmount(CheckedPlan plan, Step seal)
    {
        if (plan.SheetOf(seal.Material) is not { } sheet)
            return false;
        var joints = plan.Repair.Joints.Where(joint => seal.Places.Contains(joint.Id)).ToList();
        double strip = joints.Sum(joint => (joint.Length + plan.Shop.Amounts.StripEnd * 2).Millimetres * joint.Count);
        double paste = joints.Sum(joint => Beads.Needed(joint, plan.Shop.Amounts).Millilitres);
        return sheet.Use == MaterialUse.SeamTape
            ? Math.Abs(seal.StripLength.Millimetres - strip) < 0.01 && seal.Amount <= Units.Volume.Zero
            : Math.Abs(seal.Amount.Millilitres - paste) < 1e-4 && seal.StripLength <= Units.Length.Zero;
    }
}
