using NodaTime;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>What is mixed is used up before it gels: in the nozzle, in the pot, in the bond line.</summary>
internal static class WorkTimeCheck
{
    public static IEnumerable<Reason> Of(CheckedPlan plan)
    {
        foreach (var step in plan.Steps.Where(step => step.Kind is StepKind.Seal or StepKind.Prime or StepKind.Bond))
        {
            if (plan.SheetOf(step.Material) is not { } sheet || sheet.Milestone(MilestoneKind.WorkEnd) is not { } work)
                continue;
            bool mixer = sheet.Method == ApplicationMethod.CartridgeWithMixer;
            if (!mixer && sheet.Method != ApplicationMethod.SprayGun)
                continue;
            int nozzles = Math.Max(1, step.Nozzles);
            var setUp = mixer && step.Kind == StepKind.Seal ? plan.Shop.Times.TwoPartSetUp + plan.Shop.Times.NewNozzle * nozzles : Duration.Zero;
            var from = step.Start + setUp;
            var each = (step.End - from) / nozzles;
            if (plan.Cures.Reached(work, from, plan.HeatOn(step.Places.FirstOrDefault())) is { } end && from + each > end + CheckedPlan.Tolerance)
                yield return Reason.Of("check-work-time", step.Id, sheet.Id, each, end - from);
        }
    }
}
