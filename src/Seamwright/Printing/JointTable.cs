using NodaTime;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>One line a joint: look, material, when applied, when ready, the runner-up; beneath it why.</summary>
internal static class JointTable
{
    // Below this many columns a joint's facts stand under its name instead of beside it.
    private const int BesideFrom = 92;

    public static void Write(Page page, RepairInput input, Plan plan)
    {
        if (plan.Joints.IsEmpty)
            return;
        page.Title(page.Say("print.joints"));
        if (page.Width >= BesideFrom)
            Beside(page, input, plan);
        else
            Stacked(page, input, plan);
    }

    private static void Beside(Page page, RepairInput input, Plan plan)
    {
        var grid = new Grid(page,
            new Column(""), new Column(page.Say("print.joint"), 10), new Column(page.Say("print.look"), 12), new Column(page.Say("print.material"), 6),
            new Column(page.Say("print.applied"), 11), new Column(page.Say("print.apply-by"), 9), new Column(page.Say("print.ready-at"), 9),
            new Column(page.Say("print.runner-up"), 10));
        foreach (var decision in plan.Joints)
        {
            var joint = Of(input, decision.Joint);
            grid.Row(
                new Run(decision.Joint.Value, Tone.Strong), joint.Name, page.Format.Text(joint.Look), new Run(Material(page, decision), Tone.Strong),
                Applied(page, decision), At(page, decision.ApplyBy), new Run(At(page, decision.Ready), Tone.Strong), RunnerUp(page, decision));
            foreach (string line in Why(page, joint, decision))
                grid.Under(line);
        }
        grid.Write();
    }

    private static void Stacked(Page page, RepairInput input, Plan plan)
    {
        foreach (var decision in plan.Joints)
        {
            var joint = Of(input, decision.Joint);
            page.Line(new Run($" {decision.Joint.Value}  ", Tone.Strong), joint.Name, new Run($"  {Material(page, decision)}", Tone.Strong));
            string[] facts =
            [
                page.Format.Text(joint.Look),
                decision.Applied is null ? "" : page.Say("print.applied-at", Applied(page, decision)),
                decision.ApplyBy is { } by ? page.Say("print.apply-by-at", by) : "",
                decision.Ready is { } ready ? page.Say("print.ready-by", ready) : "",
                page.Say("print.runner-up-is", RunnerUp(page, decision)),
            ];
            page.Paragraph(string.Join(" · ", facts.Where(fact => fact.Length > 0)), "    ");
            foreach (string line in Why(page, joint, decision))
                page.Paragraph(line, $"    {page.Marks.Under}", Tone.Faint, Tone.Faint);
        }
    }

    private static Joint Of(RepairInput input, PlaceId id) => input.Repair.JointOrCavity(id)!;

    private static string Material(Page page, JointPlan decision)
    {
        if (decision.Material is not { } material)
            return page.Say("print.nothing");
        string text = material.Value;
        if (decision.Preparation != Preparation.AsIs)
            text += $", {page.Format.Word(decision.Preparation)}";
        return decision.Heated ? $"{text}, {page.Say("print.heated")}" : text;
    }

    private static string Applied(Page page, JointPlan decision) =>
        decision.Applied is { } applied ? page.Format.Between(applied.Start, applied.End) : "";

    private static string At(Page page, Instant? moment) => moment is { } at ? page.Format.Moment(at) : "";

    private static string RunnerUp(Page page, JointPlan decision)
    {
        if (decision.RunnerUp is not { } other)
            return decision.Material is null ? "" : page.Say("print.none");
        var consequence = decision.Answers.FirstOrDefault(answer => answer.Material == other)?.Consequence;
        return consequence is null ? other.Value : $"{other.Value} {Shift(page, consequence)}";
    }

    internal static string Shift(Page page, Consequence consequence) =>
        $"{page.Format.Shift(consequence.ReadyShift)} {page.Format.Text(consequence.CostShift, "signed")}";

    private static IEnumerable<string> Why(Page page, Joint joint, JointPlan decision)
    {
        var parts = decision.Why.Take(1).Select(why => Sentence.Phrase(page.Format.Sentence(why))).ToList();
        if (decision.PaintBy is { } paintBy && decision.Material is not null)
            parts.Add(page.Say("print.paint-by", paintBy));
        if (parts.Count > 0)
            yield return string.Join(" · ", parts);

        // What the technician asked for deserves its answer even where something else was better.
        if (joint.Wanted is { } wanted && wanted != decision.Material)
            yield return Refusal(page, decision, wanted);
    }

    private static string Refusal(Page page, JointPlan decision, MaterialId wanted)
    {
        var answer = decision.Answers.FirstOrDefault(answer => answer.Material == wanted);
        var against = answer?.Verdicts.FirstOrDefault(verdict => verdict.Kind == answer.Overall);
        return against is null || answer!.Overall < VerdictKind.NeedsSignOff
            ? page.Say("print.wanted", wanted)
            : page.Say("print.wanted-refused", wanted, answer.Overall, against.Reason);
    }
}
