using NodaTime;
using Seamwright.Materials;
using Seamwright.Shops;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>Everybody works in their hours, at what they can and may do, and at one thing at a time; nothing lies before now.</summary>
internal static class PeopleCheck
{
    public static IEnumerable<Reason> Of(CheckedPlan plan)
    {
        foreach (var step in plan.Steps)
        {
            if (step.Start < plan.Repair.Now || step.End < step.Start)
                yield return Reason.Of("check-before-now", step.Id, step.Start, plan.Repair.Now);
            if (step.Person is not null && plan.Repair.Arrives is { } arrival && step.Start < arrival)
                yield return Reason.Of("check-before-arrival", step.Id, step.Start, arrival);
            if (step.Person is not { } name)
            {
                if (NeedsHands(step.Kind))
                    yield return Reason.Of("check-nobody", step.Id, step.Kind);
                continue;
            }
            if (plan.Shop.People.FirstOrDefault(person => person.Id == name) is not { } person)
            {
                yield return Reason.Of("check-unknown-person", step.Id, name);
                continue;
            }
            foreach (var reason in Fit(plan, step, person))
                yield return reason;
        }
        foreach (var reason in TwoThingsAtOnce(plan))
            yield return reason;
    }

    private static IEnumerable<Reason> Fit(CheckedPlan plan, Step step, Person person)
    {
        if (!SkillsFor(plan, step).Any(person.Skills.Contains))
            yield return Reason.Of("check-skill", step.Id, person.Id, step.Kind);
        var day = step.Start.InZone(plan.Shop.Zone).Date;
        if (step.Kind is StepKind.Seal or StepKind.Prime or StepKind.Bond or StepKind.Foam && plan.SheetOf(step.Material) is { } sheet && person.Trainings is { } trainings)
        {
            foreach (string training in sheet.Trainings)
            {
                if (!trainings.TryGetValue(training, out var through) || day > through)
                    yield return Reason.Of("check-training", step.Id, person.Id, training);
            }
        }

        if (person.Absences.Any(away => away.Start < step.End && step.Start < away.End))
            yield return Reason.Of("check-away", step.Id, person.Id, step.Start);

        // The slot is the painter's own appointment; everything else lies in working hours.
        if (step.Kind == StepKind.Paint)
            yield break;
        var until = step.Kind == StepKind.StoneChip && step.HeatTo is not null ? step.Start + step.Labour : step.End;
        if (!OwnHours.Of(plan, person, day, [plan.Plan.Slot]).Any(open => step.Start >= open.From && until <= open.To))
            yield return Reason.Of("check-hours", step.Id, person.Id, step.Start, until);
        if (!OwnHours.IsOrdinary(plan, day) && step.Start < plan.PaintEnd)
            yield return Reason.Of("check-weekend", step.Id, step.Start);
        var labour = step.Kind == StepKind.StoneChip && step.HeatTo is not null ? step.Labour : step.End - step.Start;
        if (step.Labour != labour)
            yield return Reason.Of("check-labour", step.Id, step.Labour, labour);
    }

    private static IEnumerable<Reason> TwoThingsAtOnce(CheckedPlan plan)
    {
        var busy = plan.Steps.Concat(plan.Facts.Where(step => step.End > plan.Repair.Now)).Where(step => step.Person is not null && !(step.Kind == StepKind.StoneChip && step.HeatTo is not null)).ToList();
        for (int i = 0; i < busy.Count; i++)
        {
            for (int k = i + 1; k < busy.Count; k++)
            {
                var (a, b) = (busy[i], busy[k]);
                if (a.Person == b.Person && !(plan.Facts.Contains(a) && plan.Facts.Contains(b)) && a.Start < b.End && b.Start < a.End)
                    yield return Reason.Of("check-two-at-once", a.Person!, a.Id, b.Id);
            }
        }
    }

    private static bool NeedsHands(StepKind kind) =>
        kind is not (StepKind.PrimerCure or StepKind.BondCure or StepKind.SealerCure or StepKind.Lamp or StepKind.Paint);

    private static Skill[] SkillsFor(CheckedPlan plan, Step step) => step.Kind switch
    {
        StepKind.Strip or StepKind.Abrade or StepKind.CleanBond or StepKind.Level => [Skill.Clean],
        StepKind.Prime => [Skill.Prime],
        StepKind.Bond or StepKind.Seal or StepKind.Foam => [Skill.Seal],
        StepKind.Operation => [plan.Repair.Operations.First(operation => step.Places.Contains(operation.Id)).Skill],
        StepKind.SetUpLamp => [Skill.Weld, Skill.Seal],
        StepKind.StoneChip or StepKind.Paint => [Skill.Paint],
        StepKind.Wax => [Skill.Wax],
        StepKind.Refit => [Skill.Refit],
        StepKind.RecordLook or StepKind.FinalCheck => [Skill.Check],
        _ => Enum.GetValues<Skill>(),
    };
}
